import type { AnswerInputs } from '../core/answer.ts'
import type { Changeable } from '../core/asked/changed.ts'
import type { Question } from '../core/question.ts'
import type { QuestionEdit } from '../uses/changeQuestion.ts'
import type { QuestionView } from '../uses/views.ts'
import { ASK_WORDS, CHANNEL_WORDS, QUESTION_WORDS } from '../words/en/questionForm.ts'
import type { Figures } from '../words/figures.ts'
import { sayChanged, sayStep } from '../words/questionState.ts'
import { pathToChange } from './changeQuestion.tsx'
import { FactsLine } from './facts.tsx'
import { pathTo } from './frame.ts'

type Props = { view: QuestionView; figures: Figures }

/** Fields that the line of facts tells. */
const IN_FACTS: ReadonlySet<Changeable> = new Set([
  ...(['wanted', 'targetFps', 'budgetMinor', 'display', 'plannedDisplay', 'wishes', 'spaceGB'] as const),
])

/** What the other fields said, each in a few words. */
function said({ was, changed }: QuestionEdit, figures: Figures): string[] {
  const of: { readonly [F in Changeable]?: (question: Question) => string | undefined } = {
    words: ({ words }) => `“${words}”`,
    asks: ({ asks }) => asks && ASK_WORDS.shop[asks],
    cameBy: ({ cameBy }) => cameBy && CHANNEL_WORDS[cameBy],
    complaint: ({ complaint }) => complaint && QUESTION_WORDS.shop.complaints[complaint],
    partInMind: ({ partInMind }) =>
      partInMind &&
      [
        partInMind.words,
        partInMind.priceMinor === undefined ? '' : `for ${figures.money(partInMind.priceMinor)}`,
      ]
        .filter(Boolean)
        .join(' '),
  }
  return changed.flatMap((field) => of[field]?.(was) ?? [])
}

const EditLine = ({
  edit,
  inputs,
  isFixed,
  figures,
}: {
  edit: QuestionEdit
  inputs: AnswerInputs
  isFixed: boolean
  figures: Figures
}) => (
  <li>
    {figures.date(edit.at)}: {sayChanged(edit.changed)}.{' '}
    {!isFixed && (
      <a href={`${pathToChange(inputs.question.id)}?was=${edit.id}`}>
        Take it back<span class="unseen">: {sayChanged(edit.changed)}</span>
      </a>
    )}
    <span class="soft block">Before: {said(edit, figures).join(', ')}</span>
    {edit.changed.some((field) => IN_FACTS.has(field)) && (
      <FactsLine question={edit.was} titles={inputs.titles} settings={inputs.settings} figures={figures} />
    )}
  </li>
)

/** Steps and changes of a question in one list, the oldest first. */
export const QuestionHistory = ({ view, figures }: Props) => {
  const { steps, edits, fixed, answer } = view
  const lines = [
    ...edits.map((edit) => ({
      at: edit.at,
      line: <EditLine edit={edit} inputs={answer.inputs} isFixed={fixed !== undefined} figures={figures} />,
    })),
    ...steps.map((step) => ({
      at: step.at,
      line: (
        <li>
          {figures.date(step.at)}: {sayStep(step)}
        </li>
      ),
    })),
  ]
  return lines.length === 0 ? null : (
    <ul>{lines.toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)).map(({ line }) => line)}</ul>
  )
}

/** Whether what was told last is an answer to what is asked now. */
export const Changed = ({ view, figures }: Props) => {
  const change = view.edits.at(-1)
  const told = view.earlier[0]
  if (change === undefined || told === undefined || told.at >= change.at) return null
  return (
    <p class="arrived">
      <b>Changed since it was answered</b>, on {figures.date(change.at)}: this is the new answer.{' '}
      <a href={pathTo('answers', told.answerId)}>The answer of {figures.date(told.at)}</a> stays as it was
      told.
    </p>
  )
}
