import type { Setting, Title } from '../core/gain/run.ts'
import { displayOf, type Question, type Wanted } from '../core/question.ts'
import { daysSince } from '../input/dates.ts'
import { displayWords } from '../words/display.ts'
import type { Figures } from '../words/figures.ts'
import { settingName, titleName } from './settingText.ts'

const displayText = (question: Question): string => {
  const planned = question.plannedDisplay === undefined ? '' : 'planned: '
  const said = displayWords(displayOf(question))
  return said === undefined ? 'display not known' : `${planned}${said}`
}

/** What the owner wants, in one paragraph under the question. */
export const FactsLine = ({
  question,
  titles,
  settings,
  figures,
}: {
  question: Question
  titles: readonly Title[]
  settings: readonly Setting[]
  figures: Figures
}) => {
  const { budgetMinor, wishes, wanted, targetFps, spaceGB } = question
  const one = wanted.every((w) => w.settingId === wanted[0]?.settingId) ? wanted[0]?.settingId : undefined
  const about = ({ settingId, weight }: Wanted): string =>
    [
      one === undefined ? settingName(settings, settingId) : undefined,
      weight === 1 ? undefined : `counts ${figures.decimal(weight)} times`,
    ]
      .filter((part) => part !== undefined)
      .join(', ')
  return (
    <p class="facts">
      {displayText(question)}
      {wanted.length > 0 && ` · wants ${figures.fps(targetFps)} in `}
      {wanted.map((w, i) => (
        <>
          {i > 0 && ', '}
          <b>{titleName(titles, w.titleId)}</b>
          {about(w) !== '' && <span class="soft"> ({about(w)})</span>}
        </>
      ))}
      {one !== undefined && ` at ${settingName(settings, one)}`}
      {budgetMinor !== undefined && ` · about ${figures.money(budgetMinor)}`}
      {wishes.map((wish) => ` · ${wish}`)}
      {spaceGB !== undefined && ` · ${figures.number(spaceGB)}\u00a0GB`}
    </p>
  )
}

/** "today", "yesterday", "12 days ago". */
export function ageText(at: string, now: string, timeZone: string): string {
  const days = daysSince(at, now, timeZone)
  if (days < 1) return 'today'
  return days === 1 ? 'yesterday' : `${days} days ago`
}
