import { z } from 'zod'
import type { ReachAsk } from '../core/reach/ask.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'

const minor = z
  .number()
  .int()
  .min(0)
  .max(2 ** 40)
const percent = z.number().min(0).max(90)
const key = z.string().min(1).max(200)
const pixels = z.number().int().min(1).max(20_000).optional()

const schema = z.strictObject({
  platforms: z
    .array(
      z.strictObject({
        name: key,
        parts: z
          .array(z.strictObject({ partId: key, priceMinor: minor.optional() }))
          .min(1)
          .max(30),
      }),
    )
    .min(1)
    .max(6),
  wanted: z
    .array(
      z.strictObject({ titleId: key, settingId: key, weight: z.number().positive().max(1000).default(1) }),
    )
    .min(1)
    .max(20),
  display: z
    .strictObject({
      widthPx: pixels,
      heightPx: pixels,
      refreshHz: z.number().positive().max(1000).optional(),
    })
    .default({}),
  targetFps: z.number().min(1).max(1000).default(60),
  upToMinor: minor.min(1).default(100_000),
  scenario: z
    .strictObject({
      pricesFallPct: percent.default(0),
      heavierPct: percent.default(0),
      years: z.number().int().min(0).max(10).default(0),
    })
    .default({ pricesFallPct: 0, heavierPct: 0, years: 0 }),
})

const NO_JSON =
  'It is no JSON that can be read. An ask names platforms (each with a name and parts) and wanted titles: see README.md.'

/** What is asked of a plan of platforms, out of JSON text; every field that is wrong is told, with what is allowed. */
export function readReachAsk(text: string | undefined): Result<ReachAsk> {
  let value: unknown
  try {
    value = JSON.parse(text ?? '')
  } catch {
    return failed({ code: 'unreadable', field: 'ASK', next: NO_JSON })
  }
  return checkReachAsk(value)
}

/** The same for a value that is read already. */
export function checkReachAsk(value: unknown): Result<ReachAsk> {
  const read = schema.safeParse(value)
  if (read.success) return ok(read.data)
  return failed(
    ...read.error.issues.map(
      ({ path, message, input }): Problem => ({
        ...{ code: input === undefined ? 'missing' : 'not allowed', field: path.join('.') || 'ask' },
        next: `${message.replace(/\.$/, '')}.`,
      }),
    ),
  )
}
