import { saidAsked } from '../words/answer/asked.ts'
import type { Item, PriceRow } from '../words/answer/letter.ts'
import type { Shown } from './answerContext.ts'
import { VerdictMark } from './mark.tsx'
import { MissingLinks } from './missingLinks.tsx'
import { pathToYes } from './yesLink.tsx'

const Items = ({ head, items }: { head: string; items: readonly Item[] }) =>
  items.length === 0 ? null : (
    <section>
      <h2>{head}</h2>
      <ul class="ruled">
        {items.map(({ verdict, word, what, says }) => (
          <li>
            <VerdictMark verdict={verdict} says={word} /> <b>{what}</b>
            {says.map((text) => (
              <span class="block">{text}</span>
            ))}
          </li>
        ))}
      </ul>
    </section>
  )

const Price = (price: { head: string; rows: readonly PriceRow[]; notes: readonly string[] }) => (
  <section>
    <h2>{price.head}</h2>
    <table class="sum">
      <tbody>
        {price.rows.map(({ what, note, figure, sum }) => (
          <tr class={sum ? 'sum' : undefined}>
            <th scope="row">
              {what}
              {note !== undefined && <small class="block">{note}</small>}
            </th>
            <td class="num">{figure}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {price.notes.map((note) => (
      <p class="soft">{note}</p>
    ))}
  </section>
)

/** What was asked by name, answered at once and before the ranking: verdict, what decides it, money, other roads. */
export const AskedBlock = ({ shown, mayAgree }: { shown: Shown; mayAgree: boolean }) => {
  const { asked, inputs } = shown.answer
  if (asked === undefined) return null
  const said = saidAsked(shown.answer, asked)
  const missing =
    'change' in asked ? (asked.change.option ?? asked.change).findings.flatMap((f) => f.missing) : []
  const once = [...new Map(missing.map((fact) => [JSON.stringify(fact), fact])).values()]
  const { option } = said
  return (
    <section class="asked" id="asked">
      <p class="verdict-line">
        <VerdictMark verdict={said.verdict} says={said.what === '' ? undefined : undefined} />{' '}
        {said.what !== '' && <b>{said.what}</b>}
      </p>
      <p class="lead">{said.answer}</p>
      {said.more.map((text) => (
        <p>{text}</p>
      ))}
      {once.length > 0 && (
        <p>
          <MissingLinks missing={once} shown={shown} />
        </p>
      )}
      <Items {...said.reasons} />
      {said.price !== undefined && <Price {...said.price} />}
      {said.roads !== undefined && <Items {...said.roads} />}
      {mayAgree && option !== undefined && option.verdict !== "can't tell" && (
        <p>
          <a href={pathToYes(inputs.question.id, option)}>They said yes to this</a>
        </p>
      )}
    </section>
  )
}
