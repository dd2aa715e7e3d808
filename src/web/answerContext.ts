import { type Answer, partsToldOf } from '../core/answer.ts'
import type { Option } from '../core/ranking/option.ts'
import { pickOf } from '../words/answer/pick.ts'
import type { Figures } from '../words/figures.ts'
import { partWords } from '../words/options.ts'
import { saySound } from '../words/quiet.ts'
import { pathTo } from './frame.ts'

/** What every piece of the answer page needs; made once a page. */
export type Shown = {
  readonly answer: Answer
  readonly figures: Figures
  /** Names and minutes that sentences are filled with. */
  readonly lookup: { partName(id: string): string; minutes(work: string): number | undefined }
  /** Parts of which the page said already how loud machines with them were. */
  readonly soundTold: Set<string>
  /** All options that could be chosen, the ranked ones first. */
  readonly options: readonly Option[]
  /** The one the pictures show: chosen in the address, else the one the message would recommend. */
  readonly lead: Option | undefined
  /** Where this page is, for links that choose another option. */
  readonly path: string
  /** The kept answer that this page shows; absent where it is the one of now. */
  readonly answerId?: string | undefined
  /** Every list in full, however long; else each ends after `LISTED_MOST`. */
  readonly isWhole?: boolean | undefined
  /** No yes can be written down now: a job is open, or the machine is another's. */
  readonly isTaken?: boolean | undefined
}

export function shownOf(
  answer: Answer,
  figures: Figures,
  path: string,
  optionId: string | undefined,
  answerId?: string,
): Shown {
  const { work } = answer.inputs
  const told = partsToldOf(answer.inputs)
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const options = [...ranked, ...withoutNumber, ...needsAFact]
  const lookup = {
    partName: (id: string) => partWords(told, id),
    minutes: (id: string) => work.find((w) => w.work === id)?.minutes,
  }
  const lead = options.find((o) => o.id === optionId) ?? pickOf(answer)
  return { answer, figures, lookup, soundTold: new Set(), options, lead, path, answerId }
}

/** How loud it was with the parts of this option; what stands further up already is not said again. */
export const soundOf = ({ answer, figures, lookup, soundTold }: Shown, { change }: Option): string[] =>
  saySound(change, answer.sound, figures, lookup.partName, soundTold)

/** The page again with another option in its pictures. */
export const pathWithOption = (shown: Shown, option: Option): string =>
  `${shown.path}?option=${encodeURIComponent(option.id)}#games`

/** A large shelf gives lists of hundreds, which nobody reads and which weigh a megabyte. */
export const LISTED_MOST = 30

/** The page again with its lists in full. */
export const pathWhole = ({ path, lead }: Shown): string =>
  `${path}?all=yes${lead === undefined ? '' : `&option=${encodeURIComponent(lead.id)}`}`

/** All that stands behind an option's number: of the answer as it is now, or of a kept one. */
export const pathToWhy = ({ answer, answerId }: Shown, { id }: Option): string => {
  const of =
    answerId === undefined ? pathTo('questions', answer.inputs.question.id) : pathTo('answers', answerId)
  return `${of}/why?option=${encodeURIComponent(id)}`
}
