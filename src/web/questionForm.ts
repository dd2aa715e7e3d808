import type { Question, Wanted } from '../core/question.ts'
import { TARGET_FPS_DEFAULT, WISHES } from '../core/question.ts'
import { key, line, lines, money, number, type Reading, whole } from '../input/cells.ts'
import { fps } from '../input/tables/questions.ts'
import { failed, ok, type Result } from '../problem.ts'
import { type Typed, textOf } from './form.tsx'
import { type FieldReader, fieldReader } from './typed.ts'

/** Words are the headline of page and mail. */
const WORDS_MAX = 500
export const ROWS_MAX = 12
const ROWS_AT_FIRST = 3

/** How many title rows the form shows: those it had, three at least, and one more when asked. */
export function rowCount(typed: Typed, oneMore: boolean): number {
  const shown = Number(textOf(typed, 'rows') ?? ROWS_AT_FIRST)
  const rows = Number.isInteger(shown) ? Math.max(ROWS_AT_FIRST, shown) : ROWS_AT_FIRST
  return Math.min(ROWS_MAX, rows + (oneMore ? 1 : 0))
}

const LABELS: Record<string, string> = {
  machineTag: 'Machine',
  words: 'The owner’s own words',
  wanted: 'Titles the owner plays',
  targetFps: 'Wanted frame rate',
  budget: 'Budget',
  display: 'Display',
  widthPx: 'Display, width',
  heightPx: 'Display, height',
  refreshHz: 'Display, refresh rate',
  wishes: 'Wishes',
}

/** Words for the fields of this form, for the list of problems at its top. */
export function questionLabel(field: string): string | undefined {
  const row = /^wanted\.(\d+)\.(title|setting|weight)$/.exec(field)
  if (row === null) return LABELS[field]
  return `Title ${Number(row[1]) + 1}${row[2] === 'title' ? '' : row[2] === 'weight' ? ', counts' : ', setting'}`
}

function wantedOf(typed: Typed, { need, read, problems }: FieldReader): Question['wanted'] {
  const wanted: Wanted[] = []
  for (let n = 0; n < ROWS_MAX; n++) {
    const titleId = textOf(typed, `wanted.${n}.title`)
    if (titleId === undefined) continue
    const next = 'Choose the setting this title is played at; frame rates compare at one setting alone.'
    const settingId = need(`wanted.${n}.setting`, key, next)
    const weight = read(`wanted.${n}.weight`, number(0.01, 100)) ?? 1
    if (settingId === undefined) continue
    if (wanted.some((w) => w.titleId === titleId && w.settingId === settingId)) {
      const twice = 'This title stands twice at one setting. Take one out, or let it count more.'
      problems.push({ code: 'duplicate', field: `wanted.${n}.title`, next: twice })
    }
    wanted.push({ titleId, settingId, weight })
  }
  if (wanted.length === 0 && !problems.some((p) => p.field.startsWith('wanted.'))) {
    const next =
      'Choose at least one title with its setting; the gain is worked out in the owner’s own titles.'
    problems.push({ code: 'missing', field: 'wanted', next })
  }
  return wanted
}

/** The question as typed, or everything that is wrong with it. Names are checked where they are kept. */
export function newQuestionOf(typed: Typed, reading: Reading): Result<Omit<Question, 'id' | 'askedAt'>> {
  const reader = fieldReader(typed, reading)
  const { read, need, problems } = reader
  const machineTag = need(
    'machineTag',
    line(60),
    'Give the tag on the case label, such as M-0042, or the owner’s name.',
  )
  const words = need('words', lines(WORDS_MAX), 'Write down what the owner asked, in their own words.')
  const wanted = wantedOf(typed, reader)
  const targetFps = read('targetFps', fps) ?? TARGET_FPS_DEFAULT
  const budgetMinor = read('budget', money)
  const display = {
    widthPx: read('widthPx', whole(320, 16_000, 'pixels')),
    heightPx: read('heightPx', whole(200, 16_000, 'pixels')),
    refreshHz: read('refreshHz', number(20, 2000, 'Hz')),
  }
  const chosen = new Set(typed.get('wishes') ?? [])
  const wishes = WISHES.filter((wish) => chosen.has(wish))
  if (problems.length > 0 || machineTag === undefined || words === undefined) return failed(...problems)
  return ok({ machineTag, words, wanted, display, targetFps, budgetMinor, wishes })
}
