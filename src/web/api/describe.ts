import { z } from '@hono/zod-openapi'
import { turnIn } from '../../core/direction.ts'
import { type Cell, type Reading, writeCell } from '../../input/cells.ts'
import type { IssueParams } from '../../input/issues.ts'
import { Refusal } from '../../input/refusal.ts'

/**
 * Schemas that stand under a name of their own in the description. The library adds its methods to schemas that are
 * made after it was loaded; those of src/input may be older, so they get them here.
 */
export const named = <T>(name: string, schema: z.ZodType<T>): z.ZodType<T> =>
  z.ZodType.prototype.openapi.call(schema, name) as z.ZodType<T>

/** The same schema with a sentence about it, and an example. */
export const told = <T>(schema: z.ZodType<T>, description: string, example?: unknown): z.ZodType<T> =>
  z.ZodType.prototype.openapi.call(schema, {
    description,
    ...(example !== undefined && { example }),
  }) as z.ZodType<T>

/** Cells that the API uses need neither the shop's money nor its time zone. */
const PLAIN: Reading = { decimalMark: '.', currencyDigits: 0, timeZone: 'UTC' }

/** Why a cell of the shop's tables would not take this value; so what programs bring can be exported and imported. */
export function refusalBy<T>(cell: Cell<T>, value: T): Refusal | undefined {
  const text = writeCell(cell, value, PLAIN)
  if (text.trim() === '') return new Refusal('missing', `Write ${cell.allowed}.`)
  const turn = turnIn(text)
  if (turn !== undefined)
    return new Refusal(
      'not allowed',
      `A hidden sign in it (${turn}) turns the direction of text. Send it without that sign.`,
    )
  const read = cell.read(text, PLAIN)
  if (read instanceof Refusal) return read
  if (text !== text.trim()) return new Refusal('not allowed', 'Take the space before and behind it away.')
  return isSame(read, value) ? undefined : new Refusal('not allowed', `Write ${cell.allowed}.`)
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a, inOrder) === JSON.stringify(b, inOrder)

const inOrder = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value

/** A value that the same cell as in forms and tables takes, with its bounds and its words. */
export function byCell<T>(schema: z.ZodType<T>, cell: Cell<T>): z.ZodType<T> {
  const checked = schema.superRefine((value, ctx) => {
    const refusal = refusalBy(cell, value)
    if (refusal === undefined) return
    const params: IssueParams = { code: refusal.code, allowed: cell.allowed }
    ctx.addIssue({ code: 'custom', message: refusal.next, params, input: value })
  })
  return told(checked, cell.allowed)
}

export const textBy = (cell: Cell<string>): z.ZodType<string> => byCell(z.string(), cell)
export const numberBy = (cell: Cell<number>): z.ZodType<number> => byCell(z.number(), cell)

/** A number in an address: digits alone, because '' would read as 0. */
export const countInQuery = (least: number, most: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/, `Write a whole number from ${least} to ${most}`)
    .transform(Number)
    .refine((n) => n >= least && n <= most, `Write a whole number from ${least} to ${most}`)
    .openapi({ type: 'integer', minimum: least, maximum: most })

/** A key of the shop's in the path. */
export const keyInPath = (description: string, example: string) =>
  z.string().min(1).max(200).openapi({ description, example })

export const instant = z.iso.datetime().openapi({ description: 'An instant, ISO 8601, UTC.' })
export const minor = z
  .int()
  .openapi({ description: 'Whole minor units of the currency of the shop, such as cents.' })
export const key = z.string().min(1)
