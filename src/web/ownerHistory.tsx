import { sayHistory } from '../words/ownerHistory.ts'
import type { OwnerProps } from './ownerForms.tsx'
import { titleName } from './settingText.ts'

/** What was changed in the machine since it was sold, and what became of promises. */
export const OwnerHistory = ({ view, words, figures }: OwnerProps) => {
  const days = sayHistory(view.history, (id) => titleName(view.titles, id), figures)
  if (days.length === 0) return null
  const list = (some: typeof days) => (
    <ul class="ruled">
      {some.map(({ date, lines }) => (
        <li>
          <b>{date}</b>
          {lines.map((line) => (
            <span class="block">{line}</span>
          ))}
        </li>
      ))}
    </ul>
  )
  return (
    <details class="card" id="history">
      <summary>
        <h2>{words.ownerHistory.title}</h2>
      </summary>
      {list(days)}
    </details>
  )
}
