import { languageFor } from '../core/language.ts'
import type { Problem } from '../problem.ts'
import type { JobView } from '../uses/jobs/jobViews.ts'
import type { Figures } from '../words/figures.ts'
import { type JobNames, namesFrom } from '../words/job.ts'
import { wordsIn } from '../words/tables.ts'
import type { Typed } from './form.tsx'
import { pathTo } from './frame.ts'
import { settingText } from './settingText.ts'

/** What every piece of a job's page needs; made once a page. */
export type JobShown = {
  readonly view: JobView
  readonly figures: Figures
  readonly names: JobNames
  readonly typed: Typed
  readonly problems: readonly Problem[]
  /** Where its forms go. */
  readonly path: string
}

export function jobShownOf(
  view: JobView,
  figures: Figures,
  posted: Typed,
  problems: readonly Problem[],
): JobShown {
  const names = namesFrom(view.parts, view.titles, view.settings, settingText)
  const typed = new Map([...typedFrom(view, figures), ...posted])
  return { view, figures, names, typed, problems, path: pathTo('jobs', view.job.id) }
}

/** The version of a title that people play now: the last it lists, else the one of its newest run. */
export const newestVersion = (
  { titles, lastVersions }: Pick<JobView, 'titles' | 'lastVersions'>,
  titleId: string,
): string | undefined =>
  titles.find(({ id }) => id === titleId)?.versions?.at(-1)?.version ?? lastVersions[titleId]

/** An amount as a field takes it: digits and a point. */
export const amountText = (minor: number, { minorDigits }: Figures): string => {
  const text = (minor / 10 ** minorDigits).toFixed(minorDigits)
  return text.replace(/\.0+$/, '')
}

/** What the forms stand with before anything is typed. */
function typedFrom({ job, kept, proposalMinor, outs, answer, customer }: JobView, figures: Figures): Typed {
  const { locale } = answer.inputs.shop
  const { usualChoices } = wordsIn(languageFor(locale, customer?.language)).mails.done
  const next = kept.find(({ outcome }) => outcome === 'not measured') ?? kept[0]
  const ref = next && `${next.promised.titleId}@${next.promised.settingId}`
  const fields: [string, string | undefined][] = [
    ['settledMinor', amountText(job.settledMinor ?? proposalMinor, figures)],
    ['title', ref],
    ['reportTitle', ref],
    ['missChecked', job.missChecked],
    ['missChoices', job.missChoices ?? usualChoices.join('\n')],
    ...outs.flatMap(({ id, creditMinor }): [string, string][] => [
      [`credit.${id}`, amountText(creditMinor, figures)],
      [`condition.${id}`, 'used'],
    ]),
  ]
  return new Map(fields.flatMap(([name, text]) => (text === undefined ? [] : [[name, [text]]])))
}
