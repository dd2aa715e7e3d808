import { z } from 'zod'
import { GRID } from '../core/gain/model/basis.ts'
import { factor } from '../core/gain/model/cholesky.ts'
import type { Excerpt, KeptBasis, KeptView } from '../core/gain/model/excerptTypes.ts'
import { MODEL_NAME } from '../core/gain/model/name.ts'
import type { CellFacts } from '../core/gain/model/view.ts'
import { WIDTH_RANGE } from '../core/gain/reliability/reliability.ts'
import { type Fitted, fittedKey, type Setting, type Title } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import { ok, type Result } from '../problem.ts'
import { problemsOfIssues } from './issues.ts'

/*
 * The piece of the gain model that is kept with an answer, as it comes back. What this lets through gives figures: no
 * list is shorter than its names, no spread is below zero, nothing is so large that a frame time overflows.
 */

const word = z.string().min(1)
const above0 = z.number().positive()
const whole = z.number().int().nonnegative()
const instant = z.iso.datetime()
/** Logs of times, of ratios, and slopes of these: e^50 ms is longer than anything lasts. */
const log = z.number().min(-50).max(50)
const variance = z.number().min(0).max(2500)

const fitted: z.ZodType<Fitted> = z.object({
  processorId: word,
  cardId: word,
  memory: z.object({
    memoryType: z.enum(MEMORY_TYPES),
    rateMts: above0,
    channels: above0,
    totalGB: above0,
  }),
  link: z.object({ gen: above0, lanes: above0 }),
  largeBar: z.boolean().optional(),
  processorLimitW: above0.optional(),
  cardLimitW: above0.optional(),
})

const setting: z.ZodType<Setting> = z.object({
  id: word,
  widthPx: above0,
  heightPx: above0,
  preset: z.string(),
  rayTracing: z.boolean(),
  upscaler: word.optional(),
  frameGeneration: z.boolean(),
  capFps: above0.optional(),
  lowered: z.object({ fromSettingId: word, what: z.string() }).optional(),
})

const title: z.ZodType<Title> = z.object({
  id: word,
  name: z.string(),
  versions: z.array(z.object({ version: z.string(), at: instant })).optional(),
  memoryGB: above0.optional(),
  graphicsMemoryGB: above0.optional(),
  capFps: above0.optional(),
})

const heard = z.object({ y: log, n: above0, weight: z.number().min(0).max(10), aged: variance })

const cell: z.ZodType<CellFacts> = z.object({
  fitted,
  runs: z
    .array(
      z.object({
        ...{ id: word, at: instant, averageFps: above0, low1Fps: above0.optional() },
        machineTag: word.optional(),
      }),
    )
    .min(1),
  ...{ version: z.string(), versionsBack: whole, capped: z.boolean(), disagree: z.boolean() },
  ...{ average: heard, low: heard.optional(), ratio: heard.optional() },
})

const outside = z.object({ none: variance, nominal: variance, variant: variance })

const basisBy = (form: KeptBasis['form'], needed: readonly string[], grid: number): z.ZodType<KeptBasis> =>
  z
    .object({
      form: z.literal(form),
      names: z
        .array(word)
        .max(5000)
        .refine((names) => new Set(names).size === names.length, 'Name each figure once.')
        .refine((names) => needed.every((one) => names.includes(one)), `Name ${needed.join(', ')}.`),
      mean: z.array(log),
      covariance: z.array(
        z
          .number()
          .min(-2500 * grid)
          .max(2500 * grid),
      ),
      ...{ tau: above0.max(10), sigma: above0.max(10), machineSd: z.number().min(0).max(10) },
      ...{ calibration: above0.max(10), alike: z.number().min(0).max(1) },
      outside: z.object({ processor: outside, card: outside }),
    })
    .superRefine(({ names, mean, covariance }, context) => {
      const n = names.length
      const wrong = (path: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message })
      if (mean.length !== n) wrong('mean', `Write one figure for each of the ${n} names.`)
      else if (covariance.length !== (n * (n + 1)) / 2)
        wrong('covariance', `Write the lower triangle of ${n} x ${n}, row by row.`)
      else if (!isCovariance(covariance, n)) wrong('covariance', 'No spreads can go together like that.')
    })

/** No sum of the figures has a variance below zero, but for what rounding to whole steps does. */
function isCovariance(triangle: readonly number[], n: number): boolean {
  const matrix = new Float64Array(n * n)
  let at = 0
  for (let r = 0; r < n; r++)
    for (let c = 0; c <= r; c++) matrix[r * n + c] = (triangle[at++] as number) + (r === c ? n : 0)
  try {
    factor(matrix, n)
    return true
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}

const smax = ['u', 'v', 'logp']

const view: z.ZodType<KeptView> = z.object({
  ...{ titleId: word, settingId: word, capLog: log.optional() },
  average: basisBy('smax', smax, GRID.average),
  low: basisBy('smax', smax, GRID.low).optional(),
  ratio: basisBy('sum', ['u', 'v'], GRID.low).optional(),
  cells: z
    .record(z.string(), cell)
    .refine(
      (cells) => Object.entries(cells).every(([key, { fitted: f }]) => key === fittedKey(f)),
      'Name each cell after what is fitted in it.',
    ),
  ...{ latestAt: z.string(), lowestSettingId: word },
})

const excerpt: z.ZodType<Excerpt> = z
  .object({
    model: z.literal(MODEL_NAME),
    at: instant,
    windowDays: above0,
    widthFactor: z.number().min(WIDTH_RANGE.least).max(WIDTH_RANGE.most).optional(),
    partIds: z.array(word),
    parts: z.array(
      z.object({
        ...{ id: word, kind: word, memoryGB: above0.optional() },
        ...{ pcieGen: above0.optional(), pcieLanes: above0.optional() },
      }),
    ),
    usualMemory: z.record(z.string(), z.string()),
    nominal: z.record(z.string(), z.object({ source: word, log })),
    titles: z.array(title),
    settings: z.array(setting),
    views: z.array(view),
  })
  .superRefine(({ views, titles, settings }, context) => {
    const known = { titleId: idsOf(titles), settingId: idsOf(settings) }
    views.forEach((one, i) => {
      for (const field of ['titleId', 'settingId'] as const)
        if (!known[field].has(one[field]))
          context.addIssue({
            code: 'custom',
            path: ['views', i, field],
            message: 'Describe it in its list too.',
          })
    })
  })

const idsOf = (list: readonly { readonly id: string }[]): ReadonlySet<string> =>
  new Set(list.map(({ id }) => id))

/**
 * Reads the piece of the gain model that an answer was kept with. `undefined`: there is none, or it is another model's,
 * which this version does not read. One problem for each spoilt field, named by its path, such as
 * `gain.views[0].average.mean[3]`.
 */
export function readExcerpt(json: unknown): Result<Excerpt | undefined> {
  if (json === undefined) return ok(undefined)
  const name = z.object({ model: word }).safeParse(json)
  if (name.success && name.data.model !== MODEL_NAME) return ok(undefined)
  const read = excerpt.safeParse(json)
  if (read.success) return ok(read.data)
  const issues = read.error.issues.slice(0, MOST_PROBLEMS)
  const problems = problemsOfIssues(issues, '').map((problem) => ({
    ...problem,
    code: 'unreadable' as const,
    field: problem.field === '' ? 'gain' : `gain.${problem.field}`,
  }))
  return { ok: false, problems }
}
/** One spoilt list of thousands is told once or twice, not thousands of times. */
const MOST_PROBLEMS = 20
