import type { PartInMind, Question } from '../core/question.ts'
import { CHANNELS } from '../core/question.ts'
import type { Reading } from '../input/cells.ts'
import { oneOf } from '../input/cells.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { QuestionChange } from '../uses/changeQuestion.ts'
import { neededFor } from '../uses/takeQuestion.ts'
import type { Typed } from './form.tsx'
import { typedFromPart } from './partForm.ts'
import { askedFields, IN_MIND_FIGURES, isToldAlready, minorTextOf } from './questionForm.ts'
import { fieldReader } from './typed.ts'

type Entry = readonly [string, string | number | undefined]

/** The form as the question stands: what is not known is empty. */
export function typedFromQuestion(question: Question, minorDigits: number): Typed {
  const { display, plannedDisplay, partInMind, wanted } = question
  const minorText = minorTextOf(minorDigits)
  const money = (minor: number | undefined) => (minor === undefined ? undefined : minorText(minor))
  const entries: Entry[] = [
    ['words', question.words],
    ['asks', question.asks],
    ['cameBy', question.cameBy],
    ['complaint', question.complaint],
    ['targetFps', question.targetFps],
    ['budget', money(question.budgetMinor)],
    ['spaceGB', question.spaceGB],
    ...displayEntries('', display),
    ...displayEntries('planned.', plannedDisplay),
    ['partKind', partInMind?.kind],
    ['partWords', partInMind?.words],
    ['partPrice', money(partInMind?.priceMinor)],
    ...figureEntries(partInMind),
    ['rows', wanted.length],
    ...wanted.flatMap(({ titleId, settingId, weight }, n): Entry[] => [
      [`wanted.${n}.title`, titleId],
      [`wanted.${n}.setting`, settingId],
      [`wanted.${n}.weight`, weight === 1 ? undefined : weight],
    ]),
  ]
  const typed = entries.flatMap(([name, value]) =>
    value === undefined ? [] : [[name, [String(value)]] as const],
  )
  return new Map<string, readonly string[]>([...typed, ['wishes', question.wishes]])
}

const displayEntries = (prefix: string, display: Question['display'] | undefined): Entry[] => [
  [`${prefix}widthPx`, display?.widthPx],
  [`${prefix}heightPx`, display?.heightPx],
  [`${prefix}refreshHz`, display?.refreshHz],
]

function figureEntries(partInMind: PartInMind | undefined): Entry[] {
  if (partInMind?.part === undefined) return []
  const { kind, part } = partInMind
  const shown = new Set(IN_MIND_FIGURES[kind])
  return [...typedFromPart(part)].flatMap(([name, [value]]): Entry[] => {
    const field = name.replace(/^figure\./, '')
    return shown.has(field) ? [[`inMind.${kind}.${field}`, value]] : []
  })
}

/** The question as typed, or all that is wrong with it. What the form does not show stays as it was. */
export function changedQuestionOf(before: Question, typed: Typed, reading: Reading): Result<QuestionChange> {
  const reader = fieldReader(typed, reading)
  const fields = askedFields(typed, reader, 'Write down what the owner asked, in their own words.')
  const cameBy = reader.read('cameBy', oneOf(CHANNELS)) ?? before.cameBy
  const { problems } = reader
  const lacking = neededFor({ ...fields, machineTag: before.machineTag }).filter(
    ({ field }) => !isToldAlready(field, problems),
  )
  if (problems.length + lacking.length > 0) return failed(...problems, ...lacking)
  const isSameKind = fields.asks === before.asks
  return ok({
    ...fields,
    cameBy,
    partInMind:
      fields.partInMind === undefined
        ? isSameKind
          ? before.partInMind
          : undefined
        : withUnseen(before.partInMind, fields.partInMind),
    complaint: fields.complaint ?? (isSameKind ? before.complaint : undefined),
  })
}

/** Of the same part, what the form does not ask for was said on its own page and stays. */
function withUnseen(before: PartInMind | undefined, now: PartInMind): PartInMind {
  if (before === undefined || before.kind !== now.kind || before.words !== now.words) return now
  const shown = new Set(IN_MIND_FIGURES[now.kind])
  const unseen = Object.fromEntries(Object.entries(before.part ?? {}).filter(([field]) => !shown.has(field)))
  // Fields of one kind on both sides, which the compiler does not follow through an object of entries.
  const part = { ...unseen, ...now.part } as NonNullable<PartInMind['part']>
  const { model } = before
  return {
    ...now,
    ...((before.part !== undefined || now.part !== undefined) && { part }),
    ...(model !== undefined && { model }),
  }
}
