import { type HistorySaid, sayHistory } from '../words/ownerHistory.ts'
import type { OwnerProps } from './ownerForms.tsx'
import { titleName } from './settingText.ts'

/** So many days stand open; earlier ones wait in a fold. */
const DAYS_OPEN = 4

const Days = ({ days }: { days: readonly HistorySaid[] }) => (
  <ul class="ruled">
    {days.map(({ date, lines }) => (
      <li>
        <b>{date}</b>
        {lines.map((line) => (
          <span class="block">{line}</span>
        ))}
      </li>
    ))}
  </ul>
)

/** What was changed in the machine since it was sold, and what became of promises. */
export const OwnerHistory = ({ view, words, figures }: OwnerProps) => {
  const days = sayHistory(view.history, (id) => titleName(view.titles, id), figures)
  if (days.length === 0) return null
  return (
    <section class="card" id="history">
      <h2>{words.ownerHistory.title}</h2>
      <Days days={days.slice(0, DAYS_OPEN)} />
      {days.length > DAYS_OPEN && (
        <details>
          <summary>{words.ownerHistory.earlier}</summary>
          <Days days={days.slice(DAYS_OPEN)} />
        </details>
      )}
    </section>
  )
}
