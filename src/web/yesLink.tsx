import type { Answer } from '../core/answer.ts'
import { warrantiesTouched } from '../core/job/warranty.ts'
import type { Option } from '../core/ranking/option.ts'
import type { Figures } from '../words/figures.ts'
import { sayTouched } from '../words/job.ts'
import { optionWords, partWords } from '../words/options.ts'
import type { Shown } from './answerContext.ts'
import { pathTo } from './frame.ts'

/** The page where a yes is written down; with the kept answer that the owner said yes to, if it is one. */
export const pathToYes = (questionId: string, option: Pick<Option, 'id'>, answerId?: string): string =>
  `${pathTo('questions', questionId)}/yes?option=${encodeURIComponent(option.id)}${
    answerId === undefined ? '' : `&answer=${encodeURIComponent(answerId)}`
  }`

/** The way from an option to its job; none while no yes can be written down. */
export const YesLink = ({ option, shown }: { option: Option; shown: Shown }) => {
  if (shown.isTaken) return null
  const { question, parts } = shown.answer.inputs
  return (
    <a href={pathToYes(question.id, option, shown.answerId)}>
      They said yes<span class="unseen"> to {optionWords(option, parts)}</span>
    </a>
  )
}

/** What an option does to warranties that run, as sentences; none where it touches none. */
export const touchedWords = (answer: Answer, option: Option, figures: Figures): string[] => {
  const { machine, warranties = [], parts } = answer.inputs
  const touched = warrantiesTouched(machine.build, option.change, warranties, answer.at)
  return [...new Set(touched.map((t) => sayTouched(t, partWords(parts, t.warranty.partId), figures)))]
}
