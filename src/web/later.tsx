import { LATER_EN } from '../words/en/later.ts'
import { sayLater } from '../words/later.ts'
import { optionWords } from '../words/options.ts'
import type { Shown } from './answerContext.ts'

/** Waiting, and saving for a new platform: rows that cost nothing today, and one of them may be the advice. */
export const LaterList = ({ shown: { answer, figures, lookup } }: { shown: Shown }) => {
  const said = sayLater(answer, figures, {
    part: lookup.partName,
    option: (option) => optionWords(option, answer.inputs.parts),
  })
  if (said.length === 0) return null
  return (
    <section id="later">
      <h2>{LATER_EN.head}</h2>
      <ul class="ruled">
        {said.map(({ what, says, wins }) => (
          <li>
            <b>{what}</b> {wins && <span class="pick">{LATER_EN.wins}</span>}
            {says.map((line) => (
              <small class="block">{line}</small>
            ))}
          </li>
        ))}
      </ul>
    </section>
  )
}
