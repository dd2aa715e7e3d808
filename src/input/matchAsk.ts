import { z } from 'zod'
import { AIMS, COMPANIONS, type MatchAsk } from '../core/matching/ask.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'

const minor = z
  .number()
  .int()
  .min(0)
  .max(2 ** 40)

/** More pieces than any shop has, and few enough for the exact sums. */
export const QUANTITY_MOST = 10_000
export const OVER_OFFER_MOST = 10
export const QUIET_DAYS_MOST = 3650

const schema = z
  .strictObject({
    items: z
      .array(
        z.strictObject({
          itemId: z.string().min(1),
          quantity: z.number().int().min(1).max(QUANTITY_MOST),
          costMinor: minor.optional(),
        }),
      )
      .min(1)
      .max(1000),
    aim: z.enum(AIMS).default('gain'),
    percentMinor: minor.min(1).optional(),
    overOffer: z.number().min(1).max(OVER_OFFER_MOST).default(1),
    smallestGainPct: z.number().min(0).max(1000).default(5),
    quietDays: z.number().int().min(0).max(QUIET_DAYS_MOST).default(90),
    companions: z.enum(COMPANIONS).default('counted'),
  })
  .check(({ value, issues }) => {
    const say = (path: (string | number)[], message: string) =>
      issues.push({ code: 'custom', input: value, path, message })
    const seen = new Set<string>()
    value.items.forEach(({ itemId, costMinor }, i) => {
      if (seen.has(itemId)) say(['items', i, 'itemId'], 'Name each item once.')
      seen.add(itemId)
      if (value.aim !== 'gain' && costMinor === undefined)
        say(['items', i, 'costMinor'], 'Give what a piece cost: without it there is no margin.')
    })
    if (value.aim === 'mix' && value.percentMinor === undefined)
      say(['percentMinor'], 'Give what one percent of gain counts for, in minor units of money.')
  })

/** What is asked of a matching, out of JSON; every field that is wrong is told, with what is allowed. */
export function readMatchAsk(value: unknown): Result<MatchAsk> {
  const read = schema.safeParse(value)
  if (read.success) return ok(read.data)
  return failed(
    ...read.error.issues.map(
      ({ path, message, input }): Problem => ({
        ...{ code: input === undefined ? 'missing' : 'not allowed', field: path.join('.') || 'ask' },
        ...(typeof input === 'string' || typeof input === 'number' ? { got: String(input) } : {}),
        next: message.endsWith('.') ? message : `${message}.`,
      }),
    ),
  )
}
