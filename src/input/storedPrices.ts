import { z } from 'zod'

const priceSchema = z.object({
  ...{ work: z.string().min(1), minutes: z.number().nonnegative() },
  priceMinor: z.number().int().nonnegative(),
})

/** Only what a change touched, at both of its ends; a work that stands in one of them alone had no price in the other. */
export const pricesChangeSchema = z.object({ before: z.array(priceSchema), after: z.array(priceSchema) })
export type PricesChange = z.infer<typeof pricesChangeSchema>
