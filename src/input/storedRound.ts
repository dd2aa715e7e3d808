import { z } from 'zod'

const shared = {
  overOffer: z.number().min(1).max(10),
  quietDays: z.number().int().min(0),
  /** The newest entry of the log when it was made: prices written later were not counted on. Absent in older rounds. */
  lastChange: z.number().int().min(0).optional(),
}

/** What a round was made of, as it is kept with it. */
export const sourceSchema = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('matching'), matchingId: z.string(), ...shared }),
  z.strictObject({
    ...{ from: z.literal('item'), itemId: z.string(), ...shared },
    /** Nobody else is asked; empty: whoever gains most. */
    tags: z.array(z.string()),
    validDays: z.number().int().min(1),
  }),
])
export type RoundSource = z.infer<typeof sourceSchema>

/** Pieces of shelf items that a yes to an offer takes. */
export const needsSchema = z.array(z.strictObject({ itemId: z.string(), quantity: z.number().int().min(1) }))
