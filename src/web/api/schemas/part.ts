import { z } from '@hono/zod-openapi'
import { LIMIT_KEYS } from '../../../core/limits/catalogue.ts'
import type { Claim, LimitKey } from '../../../core/limits/limit.ts'
import { LIMIT_SOURCES } from '../../../core/limits/limit.ts'
import { PART_KINDS, type Part } from '../../../core/part.ts'
import { type Cell, lines } from '../../../input/cells.ts'
import { partSchema, plugsSchema } from '../../../input/parts.ts'
import { LIMIT_VALUE_SCHEMAS } from '../../../input/stored.ts'
import { LIMIT_COLUMNS } from '../../../input/tables/machines.ts'
import { byCell, instant, key, named, textBy, told } from '../describe.ts'

export const partKind = z.enum(PART_KINDS)
/** A part with what is known of it; what is absent is not known. */
export const part: z.ZodType<Part> = named('Part', partSchema)

export const limitKey = z.enum(LIMIT_KEYS)

/** Who can stand behind a value that somebody brings; the others are derived. */
const BROUGHT = ['read', 'measured', 'entered'] as const

const newLimitOf = (name: LimitKey) => {
  const cell = LIMIT_COLUMNS[name].cell as unknown as Cell<never>
  return z.strictObject({
    key: z.literal(name),
    value: byCell(LIMIT_VALUE_SCHEMAS[name] as z.ZodType<never>, cell),
    source: z.enum(BROUGHT),
    note: textBy(lines()).optional(),
    pinned: z.boolean().optional(),
  })
}

/** One limit as somebody measured, read or typed it; the value depends on the key. */
export const newLimit: z.ZodType<Claim> = named(
  'NewLimit',
  z.discriminatedUnion(
    'key',
    // A list of one entry a limit, which the compiler cannot count.
    LIMIT_KEYS.map(newLimitOf) as unknown as [ReturnType<typeof newLimitOf>],
  ) as unknown as z.ZodType<Claim>,
)

const loadPoint = z.strictObject({ loadC: z.number(), roomC: z.number(), powerW: z.number() })
const limitValue = z.union([z.number(), z.string(), plugsSchema, loadPoint])

/** A limit as it stands: what is believed, who says so, or how to find out. */
const limitShape = z.strictObject({
  key: limitKey,
  label: z.string(),
  unit: told(z.string(), 'Unit of a figure; empty for names and counts.'),
  known: z.boolean(),
  value: limitValue.optional(),
  source: z.enum(LIMIT_SOURCES).optional(),
  at: instant.optional(),
  note: z.string().optional(),
  pinned: z.boolean().optional(),
  says: told(z.string(), 'The value in words; "not known" where it is not.'),
  by: told(z.string(), 'Who stands behind it, or why it is not known.'),
  conflict: z.string().optional(),
  findOut: told(z.string(), 'How to find it out, where it is not known.').optional(),
})
export type LimitShown = z.output<typeof limitShape>
export const limit: z.ZodType<LimitShown> = named('Limit', limitShape)

export const stay = z.strictObject({
  partId: key,
  kind: partKind,
  name: z.string(),
  fittedAt: instant.optional(),
  removedAt: instant.optional(),
})
