import { type Counted, MAIL_COUNTED, SAID_COUNTED, YES_COUNTED } from '../core/round/result.ts'
import type { RoundView } from '../uses/rounds/roundViews.ts'
import { TOLD_AT_ONCE } from '../uses/rounds/tellGone.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { fill } from '../words/say.ts'
import { counted, type Shown, Step } from './roundParts.tsx'
import { Seats } from './roundSeats.tsx'
import { pathToRound } from './rounds.tsx'

const W = ROUNDS_EN.round

type Showing = Shown & { readonly show: Counted | undefined }

/** Numbers that stand together; rare ones are left away while they are 0. */
const GROUPS: readonly (readonly [head: string, names: readonly Counted[], always: readonly Counted[]])[] = [
  [W.how, ['asked', ...MAIL_COUNTED], ['asked', 'sent', 'waiting', 'not sent']],
  [W.answers, [...SAID_COUNTED, 'questions'], ['no answer', 'yes', 'no', 'given back', 'questions']],
  [W.yeses, YES_COUNTED, ['reserved', 'in line', 'done']],
  [W.after, ['earned', 'gained', 'kept', 'missed'], ['earned', 'gained', 'kept', 'missed']],
]

/** Each number of the result leads to the customers that it counts. */
export const Results = ({ view, figures, show }: Showing) => {
  const { result, row } = view
  if (row.state === 'draft' || (row.state === 'called off' && row.begunAt === undefined)) return null
  return (
    <section class="card">
      <h2>{W.result}</h2>
      {GROUPS.map(([head, names, always]) => (
        <>
          <h3>{head}</h3>
          <dl class="round-numbers">
            {names
              .filter((name) => result.of[name].length > 0 || always.includes(name))
              .map((name) => (
                <Figure name={name} view={view} figures={figures} show={show} />
              ))}
          </dl>
        </>
      ))}
      <p>
        {fill(W.money, {
          earned: figures.money(result.earnedMinor, true),
          toCome: figures.money(result.toComeMinor, true),
        })}{' '}
        {result.marginMinor !== undefined &&
          fill(W.margin, { margin: figures.money(result.marginMinor, true) })}{' '}
        {result.gainedPct !== undefined && fill(W.gained, { gain: figures.gainPct(result.gainedPct) })}
      </p>
    </section>
  )
}

const Figure = ({
  name,
  view,
  figures,
  show,
}: Pick<Showing, 'view' | 'figures' | 'show'> & { name: Counted }) => {
  const n = figures.number(view.result.of[name].length)
  return (
    <div>
      <dt>{ROUNDS_EN.counted[name]}</dt>
      <dd class="num">
        <a
          href={`${pathToRound(view.row.id)}?show=${encodeURIComponent(name)}#customers`}
          aria-current={show === name ? 'true' : undefined}
          aria-label={`${ROUNDS_EN.counted[name]}: ${n}`}
        >
          {n}
        </a>
      </dd>
    </div>
  )
}

/** What came back waits for the first in line. */
export const Next = ({ view }: Shown) => {
  const seat = view.seats.find(({ id }) => id === view.nextSeat)
  if (seat === undefined) return null
  const name = seat.name ?? seat.customerId
  return (
    <section class="card">
      <p role="status">{fill(W.next, { name })}</p>
      <Step view={view} step={`seats/${seat.id}/give`} says={fill(W.nextGive, { name })} />
    </section>
  )
}

/** Who said yes in vain hears of it: all mails at once, looked through before they are approved. */
export const Notices = ({ view, figures }: Shown) => {
  const { toWrite, drafted } = view.notices
  if (toWrite + drafted.length === 0) return null
  const what = view.row.state === 'called off' ? W.isNotBought : W.isGone
  return (
    <section class="card">
      <h2>{W.notices}</h2>
      {toWrite > 0 && (
        <>
          <p>{counted(W.toTell, toWrite, figures, { what })}</p>
          <p class="hint">{W.tellAllHint}</p>
          <Step
            view={view}
            step="tell"
            says={
              toWrite > TOLD_AT_ONCE
                ? fill(W.tellSome, { most: figures.number(TOLD_AT_ONCE), n: figures.number(toWrite) })
                : counted(W.tellAll, toWrite, figures)
            }
          />
        </>
      )}
      {drafted.length > 0 && (
        <p>
          {counted(W.drafted, drafted.length, figures)}{' '}
          <a href={pathToApprove(drafted)}>{counted(W.approveAll, drafted.length, figures)}</a>
        </p>
      )}
    </section>
  )
}

/** Where these drafts are looked through and approved together. */
export const pathToApprove = (mailIds: readonly string[]): string =>
  `/outbox/many?${mailIds.map((id) => `mail=${encodeURIComponent(id)}`).join('&')}`

export const Happened = ({ view, figures }: Shown) => {
  const nameOfSeat = new Map(view.seats.map(({ id, name, customerId }) => [id, name ?? customerId]))
  return (
    <details class="card fold">
      <summary>{W.happened}</summary>
      <ul class="ruled">
        {view.notes.map(({ at, event, seatId, by, says }) => (
          <li>
            <p>
              <span class="soft">{figures.dateTime(at)}</span>{' '}
              {seatId !== undefined && `${nameOfSeat.get(seatId) ?? ''}: `}
              {ROUNDS_EN.events[event] ?? event}
              {by !== undefined && ` (${by})`}
              {says !== undefined && `: ${says}`}
            </p>
          </li>
        ))}
      </ul>
    </details>
  )
}

export const Customers = ({ show, ...shown }: Showing) => {
  const { view } = shown
  const ids = show === undefined ? undefined : new Set(view.result.of[show])
  const isIn = ({ standing }: RoundView['seats'][number]) => standing !== 'left out'
  const seats = view.seats.filter((seat) => (ids === undefined ? isIn(seat) : ids.has(seat.id)))
  const out = view.seats.filter((seat) => !isIn(seat))
  return (
    <>
      <section class="card" id="customers">
        <h2>{W.customers}</h2>
        {show !== undefined && (
          <p class="line">
            {fill(W.showing, { what: ROUNDS_EN.counted[show] })}{' '}
            <a href={`${pathToRound(view.row.id)}#customers`}>{W.showAll}</a>
          </p>
        )}
        <Seats {...shown} seats={seats} />
      </section>
      {out.length > 0 && show === undefined && (
        <section class="card">
          <h2>{W.leftOut}</h2>
          <Seats {...shown} seats={out} />
        </section>
      )}
    </>
  )
}
