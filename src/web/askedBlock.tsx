import type { Child } from 'hono/jsx'
import type { WorkRoad } from '../core/asked/asked.ts'
import { optionOfWork } from '../core/asked/complaint.ts'
import { modelStands, recordsLike } from '../core/asked/inMind.ts'
import type { Missing } from '../core/fit/finding.ts'
import { saidAsked } from '../words/answer/asked.ts'
import type { Item, PriceRow } from '../words/answer/letter.ts'
import { optionWords } from '../words/options.ts'
import type { Shown } from './answerContext.ts'
import { VerdictMark } from './mark.tsx'
import { LimitLink, MissingLinks } from './missingLinks.tsx'
import { pathToPartInMind } from './partInMind.tsx'
import { pathToYes, YesLink } from './yesLink.tsx'

type ItemsProps = {
  head: string
  items: readonly Item[]
  /** What can be done about the item at that place. */
  acts?: ((at: number) => Child) | undefined
}

const Items = ({ head, items, acts }: ItemsProps) =>
  items.length === 0 ? null : (
    <section>
      <h2>{head}</h2>
      <ul class="ruled">
        {items.map(({ verdict, word, what, says }, at) => (
          <li>
            <VerdictMark verdict={verdict} says={word} /> <b>{what}</b>
            {says.map((text) => (
              <span class="block">{text}</span>
            ))}
            {acts?.(at)}
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

/**
 * Of a part without a record: the one on record that the owner's words may mean, and the way back to its figures once
 * none is missing.
 */
const MayBe = ({ shown: { answer }, lacks }: { shown: Shown; lacks: readonly Missing[] }) => {
  const { asked, inputs } = answer
  const { partInMind, id } = inputs.question
  if (asked?.ask !== 'can I put this in' || asked.isKnown || partInMind === undefined) return null
  const [first] = recordsLike(partInMind, inputs.parts)
  const isWhole = lacks.every((m) => 'limit' in m || m.partId !== asked.part.id)
  const isModelAsked = !isWhole && modelStands(partInMind) === 'to ask'
  if (first === undefined && !isWhole && !isModelAsked) return null
  return (
    <p class="actions">
      {first !== undefined && <a href={pathToPartInMind(id)}>Is it {first.name}?</a>}
      {isModelAsked && <a href={pathToPartInMind(id)}>Say which exact model it is</a>}
      {isWhole && <a href={pathToPartInMind(id)}>Correct its figures</a>}
    </p>
  )
}

/** Of a work: where to say what somebody saw, or to ask for it, and the way to its job. */
const WorkActs = ({ road, shown, mayAgree }: { road: WorkRoad; shown: Shown; mayAgree: boolean }) => {
  const option = optionOfWork(road.work, shown.answer.ranking)
  if (road.state === 'nothing to do') return null
  return (
    <p class="actions">
      {road.limits.map((limit) => (
        <LimitLink limit={limit} shown={shown} />
      ))}
      {mayAgree && option !== undefined && <YesLink option={option} shown={shown} />}
    </p>
  )
}

/** What was asked by name, answered at once and before the ranking: verdict, what decides it, money, other roads. */
export const AskedBlock = ({ shown, mayAgree }: { shown: Shown; mayAgree: boolean }) => {
  const { asked, inputs } = shown.answer
  if (asked === undefined) return null
  const said = saidAsked(shown.answer, asked)
  const missing =
    'change' in asked ? (asked.change.option ?? asked.change).findings.flatMap((f) => f.missing) : []
  const once = [...new Map(missing.map((fact) => [JSON.stringify(fact), fact])).values()]
  const { option } = said
  const works = asked.ask === 'something is wrong' ? asked.works : []
  const parts = asked.ask === 'something is wrong' ? asked.parts : []
  return (
    <section class="asked" id="asked">
      {asked.ask !== 'something is wrong' && (
        <p class="verdict-line">
          <VerdictMark verdict={said.verdict} /> {said.what !== '' && <b>{said.what}</b>}
        </p>
      )}
      <p class="lead">{said.answer}</p>
      {said.more.map((text) => (
        <p>{text}</p>
      ))}
      <MayBe shown={shown} lacks={once} />
      {once.length > 0 && (
        <p>
          <MissingLinks missing={once} shown={shown} />
        </p>
      )}
      <Items
        {...said.reasons}
        acts={(at) => works[at] && <WorkActs road={works[at]} shown={shown} mayAgree={mayAgree} />}
      />
      {said.price !== undefined && <Price {...said.price} />}
      {said.roads !== undefined && (
        <Items
          {...said.roads}
          acts={(at) => mayAgree && parts[at] && <YesLink option={parts[at]} shown={shown} />}
        />
      )}
      {mayAgree && option !== undefined && option.verdict !== "can't tell" && (
        <p>
          <a href={pathToYes(inputs.question.id, option)}>They said yes to this</a>
        </p>
      )}
      {mayAgree && option?.surely !== undefined && (
        <p>
          Needs no fact: {optionWords(option.surely, inputs.parts)}.{' '}
          <YesLink option={option.surely} shown={shown} />
        </p>
      )}
    </section>
  )
}
