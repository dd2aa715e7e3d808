import { z } from 'zod'
import type { Fitted } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import { TARGET_FPS_DEFAULT } from '../core/question.ts'
import { failed, ok, type Result } from '../problem.ts'
import { problemsOfIssues } from './issues.ts'

/** A title that is asked for, at its setting, with its share in the useful gain. */
export type AskedTitle = { readonly titleId: string; readonly settingId: string; readonly weight: number }

/** One line of asks: what a change is worth in some titles. */
export type GainLine = {
  /** Whatever names the ask; it comes back with its answer. */
  readonly id?: string | number | undefined
  readonly of:
    | {
        readonly machine: string
        readonly add: readonly string[]
        readonly removeIds: readonly string[]
        readonly work: readonly string[]
      }
    | { readonly fitted: Fitted; readonly change: Partial<Fitted> }
  readonly titles: readonly AskedTitle[]
  readonly displayHz?: number | undefined
  readonly targetFps: number
}

const id = z.string().min(1)
const above0 = z.number().positive()
const count = z.int().positive()

const fittedShape = {
  processorId: id,
  cardId: id,
  memory: z.strictObject({
    memoryType: z.enum(MEMORY_TYPES),
    rateMts: above0,
    channels: count,
    totalGB: above0,
  }),
  link: z.strictObject({ gen: count, lanes: count }),
  largeBar: z.boolean().optional(),
  processorLimitW: above0.optional(),
  cardLimitW: above0.optional(),
}
const fitted: z.ZodType<Fitted> = z.strictObject(fittedShape)

const asked = {
  id: z.union([z.string(), z.number()]).optional(),
  titles: z
    .array(z.union([id, z.strictObject({ title: id, setting: id.optional(), weight: above0.optional() })]))
    .min(1),
  setting: id.optional(),
  displayHz: above0.optional(),
  targetFps: above0.optional(),
}

const ofMachine = z.strictObject({
  ...asked,
  machine: id,
  add: z.array(id).optional(),
  removeIds: z.array(id).optional(),
  work: z.array(id).optional(),
})
const ofFitted = z.strictObject({
  ...asked,
  fitted,
  change: z.strictObject(fittedShape).partial(),
})

const EXAMPLE = '{ "machine": "M-0001", "add": ["CARD-A"], "titles": ["some-title"], "setting": "1080-high" }'

/**
 * Reads one line of asks: JSON with either `machine` (a tag; with `add`, `removeIds`, `work`) or `fitted` (as runs have
 * it; with `change`, what is other afterwards), and with `titles`, each a name or `{ title, setting, weight }`, `setting`
 * for those without one, `displayHz`, `targetFps` (60 when it is not given). One problem for each wrong field.
 */
export function readGainLine(text: string): Result<GainLine> {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    const next = `This line is not JSON. Write an ask such as ${EXAMPLE}.`
    return failed({ code: 'unreadable', field: 'line', got: text, next })
  }
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    const next = `This line is no ask. Write one such as ${EXAMPLE}.`
    return failed({ code: 'not allowed', field: 'line', got: text, next })
  }
  if ('machine' in json === 'fitted' in json) {
    const next = 'Write either machine, a tag, or fitted, the parts as runs have them.'
    const allowed = 'machine or fitted'
    return failed({ code: 'machine' in json ? 'conflict' : 'missing', field: 'machine', allowed, next })
  }
  const read = ('machine' in json ? ofMachine : ofFitted).safeParse(json, { reportInput: true })
  if (!read.success) return failed(...problemsOfIssues(read.error.issues, 'line'))
  return lineOf(read.data)
}

function lineOf(data: z.output<typeof ofMachine> | z.output<typeof ofFitted>): Result<GainLine> {
  const { titles, setting, targetFps = TARGET_FPS_DEFAULT, displayHz } = data
  const rows = titles.map((t) => (typeof t === 'string' ? { title: t } : t))
  const without = rows.findIndex((row) => !('setting' in row) && setting === undefined)
  if (without >= 0) {
    const next = 'Say at which setting: for this title, or once for all titles.'
    return failed({ code: 'missing', field: `titles[${without}].setting`, next })
  }
  const of =
    'machine' in data
      ? {
          machine: data.machine,
          add: data.add ?? [],
          removeIds: data.removeIds ?? [],
          work: data.work ?? [],
        }
      : { fitted: data.fitted, change: given(data.change) }
  return ok({
    ...(data.id !== undefined && { id: data.id }),
    of,
    titles: rows.map((row) => ({
      titleId: row.title,
      settingId: ('setting' in row ? row.setting : undefined) ?? setting ?? '',
      weight: ('weight' in row ? row.weight : undefined) ?? 1,
    })),
    ...(displayHz !== undefined && { displayHz }),
    targetFps,
  })
}

/** Only what is really given: an absent figure leaves what is fitted. */
const given = (change: { readonly [K in keyof Fitted]?: Fitted[K] | undefined }): Partial<Fitted> =>
  Object.fromEntries(Object.entries(change).filter(([, value]) => value !== undefined))
