import { z } from 'zod'
import { type ItemChange, OFF_REASONS } from '../core/shelfEdit.ts'
import { CONDITIONS } from '../core/shop.ts'

const word = z.string().min(1)
const whole = z.number().int().nonnegative()

const stateSchema = z.object({
  item: z.object({
    ...{ id: word, partId: word, condition: z.enum(CONDITIONS), quantity: whole, priceMinor: whole },
    ...{ warrantyMonths: z.number().nonnegative().optional(), warrantyEndsWith: z.string().optional() },
    ...{ at: z.iso.datetime(), note: z.string().optional() },
  }),
  removedAt: z.iso.datetime().optional(),
})

/** A change of an item of the shelf, as it is kept to be taken back. */
export const itemChangeSchema: z.ZodType<ItemChange> = z.object({
  before: stateSchema,
  after: stateSchema,
  because: z.enum(OFF_REASONS).optional(),
})
