import type { Question } from '../core/question.ts'
import { TARGET_FPS_DEFAULT, WISHES } from '../core/question.ts'
import type { Problem } from '../problem.ts'
import { failed, ok, type Result } from '../problem.ts'
import { textOf, type Typed } from './form.tsx'
import { collect, moneyOf, wholeOf } from './typed.ts'
import type { NewQuestion } from './webUses.ts'

export const WORDS_MAX = 500
export const ROWS_MAX = 12
const ROWS_AT_FIRST = 3

/** How many title rows the form shows: those typed in, three at least, and one more when asked. */
export function rowCount(typed: Typed, oneMore: boolean): number {
  const shown = Number(textOf(typed, 'rows') ?? ROWS_AT_FIRST)
  const rows = Number.isInteger(shown) ? Math.max(ROWS_AT_FIRST, shown) : ROWS_AT_FIRST
  return Math.min(ROWS_MAX, rows + (oneMore ? 1 : 0))
}

/** Words for the fields of this form, for the list of problems at its top. */
export function questionLabel(field: string): string | undefined {
  const row = /^wanted\.(\d+)\.(title|setting|weight)$/.exec(field)
  if (row !== null) return `Title ${Number(row[1]) + 1}, ${row[2] === 'weight' ? 'counts' : row[2]}`
  return LABELS[field]
}

const LABELS: Record<string, string> = {
  machineTag: 'Machine',
  words: 'The owner’s own words',
  wanted: 'Titles the owner plays',
  display: 'Display',
  targetFps: 'Wanted frame rate',
  budget: 'Budget',
  widthPx: 'Display, width',
  heightPx: 'Display, height',
  refreshHz: 'Display, refresh rate',
  wishes: 'Wishes',
}

function wantedOf(typed: Typed, problems: Problem[]): Question['wanted'] {
  const wanted: Question['wanted'][number][] = []
  for (let n = 0; n < ROWS_MAX; n++) {
    const titleId = textOf(typed, `wanted.${n}.title`)
    const settingId = textOf(typed, `wanted.${n}.setting`)
    if (titleId === undefined) continue
    if (settingId === undefined) {
      const next = 'Choose the setting this title is played at; frame rates compare at one setting alone.'
      problems.push({ code: 'missing', field: `wanted.${n}.setting`, next })
      continue
    }
    const rule = { field: `wanted.${n}.weight`, of: 'a weight', min: 1, max: 9, example: 2 }
    wanted.push({ titleId, settingId, weight: collect(wholeOf(typed, rule), problems) ?? 1 })
  }
  if (wanted.length === 0 && !problems.some((p) => p.field.startsWith('wanted.'))) {
    const next = 'Choose at least one title with its setting; the gain is worked out in the owner’s own titles.'
    problems.push({ code: 'missing', field: 'wanted.0.title', next })
  }
  const pairs = wanted.map((w) => `${w.titleId}|${w.settingId}`)
  const twice = pairs.findIndex((pair, i) => pairs.indexOf(pair) !== i)
  if (twice >= 0) {
    const next = 'This title stands twice at the same setting. Take one out, or let it count more.'
    problems.push({ code: 'duplicate', field: `wanted.${twice}.title`, next })
  }
  return wanted
}

/** The question as typed, or everything that is wrong with it. Names are checked where they are kept. */
export function newQuestionOf(typed: Typed, minorDigits: number): Result<NewQuestion> {
  const problems: Problem[] = []
  const machineTag = textOf(typed, 'machineTag')
  const words = textOf(typed, 'words')
  if (machineTag === undefined)
    problems.push({ code: 'missing', field: 'machineTag', next: 'Give the tag on the case label, such as M-0042.' })
  if (words === undefined)
    problems.push({ code: 'missing', field: 'words', next: 'Write down what the owner asked, in their own words.' })
  if (words !== undefined && words.length > WORDS_MAX)
    problems.push({
      code: 'not allowed',
      field: 'words',
      allowed: `up to ${WORDS_MAX} characters`,
      next: `These are ${words.length} characters. Keep it to ${WORDS_MAX}; it is the headline of the answer.`,
    })
  const wanted = wantedOf(typed, problems)
  const whole = (field: string, of: string, min: number, max: number, example: number) =>
    collect(wholeOf(typed, { field, of, min, max, example }), problems)
  const targetFps = whole('targetFps', 'a frame rate', 20, 500, 60) ?? TARGET_FPS_DEFAULT
  const widthPx = whole('widthPx', 'a width in pixels', 640, 15360, 1920)
  const heightPx = whole('heightPx', 'a height in pixels', 480, 8640, 1080)
  const refreshHz = whole('refreshHz', 'a refresh rate in Hz', 24, 1000, 144)
  const budgetMinor = collect(moneyOf(typed, 'budget', minorDigits), problems)
  const chosen = new Set(typed.get('wishes') ?? [])
  const wishes = WISHES.filter((wish) => chosen.has(wish))
  if (problems.length > 0 || machineTag === undefined || words === undefined) return failed(...problems)
  const display = { widthPx, heightPx, refreshHz }
  return ok({ machineTag, words, wanted, display, targetFps, budgetMinor, wishes })
}
