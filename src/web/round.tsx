import type { Context, Hono } from 'hono'
import { html, raw } from 'hono/html'
import { COUNTED, type Counted } from '../core/round/result.ts'
import { line, money, whole } from '../input/cells.ts'
import { QUANTITY_MOST } from '../input/matchAsk.ts'
import { type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { RoundView } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { partWords } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, readingFor, type Web } from './frame.ts'
import { PREVIEW_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { pathToMail } from './outboxParts.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { Seats, type Shown } from './roundSeats.tsx'
import { pathToRound } from './rounds.tsx'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'

const W = ROUNDS_EN.round
const PLURAL = new Intl.PluralRules('en')
/** While something is on its way the page comes again by itself, also without a script. */
const AGAIN_S = 3

type Props = Shown & { readonly typed: Typed; readonly problems: readonly Problem[] }

const Step = ({
  view,
  step,
  says,
  quiet,
}: {
  view: RoundView
  step: string
  says: string
  quiet?: boolean
}) => (
  <form method="post" action={`${pathToRound(view.row.id)}/${step}`}>
    <button class={quiet === true ? 'button quiet' : 'button'} type="submit">
      {says}
    </button>
  </form>
)

const Bar = ({ done, of, label }: { done: number; of: number; label: string }) => (
  <progress max={Math.max(1, of)} value={done} aria-label={label} />
)

/** How far the offers of a draft are, or why there are none. */
const Preparing = ({ view, figures }: Shown) => {
  const { row, prepared } = view
  if (row.trouble !== undefined)
    return (
      <section class="card">
        <p class="wrong" role="alert">
          {W.trouble}
        </p>
        <Step view={view} step="again" says={W.tryAgain} />
      </section>
    )
  return (
    <section class="card">
      <h2>{W.preparing}</h2>
      <p role="status">
        {prepared.of === 0
          ? W.finding
          : fill(W.prepared, { done: figures.number(prepared.done), of: figures.number(prepared.of) })}
      </p>
      <Bar done={prepared.done} of={prepared.of} label={W.preparing} />
      <p>
        <a href={pathToRound(row.id)}>{W.look}</a>
      </p>
    </section>
  )
}

const Draft = ({ view }: Shown) => {
  const { row, seen, hasReach, result } = view
  const n = result.of.asked.length
  return (
    <section class="card">
      {!hasReach && (
        <p class="nothing" role="note">
          {W.noReach}
        </p>
      )}
      {n === 0 ? (
        <p class="nothing">{W.nobody}</p>
      ) : (
        <form method="post" action={`${pathToRound(row.id)}/begin`}>
          <input type="hidden" name="seen" value={seen} />
          <p>{W.beginHint}</p>
          <button class="button" type="submit">
            {fill(formOf(W.begin, n, PLURAL), { n: String(n) })}
          </button>
        </form>
      )}
      <p class="hint">{W.dropHint}</p>
      <Step view={view} step="call-off" says={W.drop} quiet />
    </section>
  )
}

/** How the mails go, and what can be done about that. */
const Going = ({ view, figures }: Shown) => {
  const { row, result, isOpenDeal } = view
  const { state } = row
  if (state === 'draft' || state === 'ended' || state === 'called off') return null
  const [of, sent] = [result.of.asked.length, result.of.sent.length]
  const figure = (list: readonly string[]) => figures.number(list.length)
  return (
    <section class="card">
      <h2>{W.sending}</h2>
      <p role="status">
        {fill(W.progress, {
          ...{ sent: figures.number(sent), of: figures.number(of) },
          ...{ waiting: figure(result.of.waiting), stopped: figure(result.of['not sent']) },
        })}
      </p>
      {result.of['in doubt'].length > 0 && (
        <p>
          {fill(formOf(W.inDoubt, result.of['in doubt'].length, PLURAL), {
            n: figure(result.of['in doubt']),
          })}{' '}
          <a href="/outbox?group=held">{W.toOutbox}</a>
        </p>
      )}
      <Bar done={sent} of={of} label={W.sending} />
      <div class="actions">
        {state === 'going out' && result.of.waiting.length > 0 && (
          <Step view={view} step="pause" says={W.pause} />
        )}
        {state === 'paused' && <Step view={view} step="resume" says={W.resume} />}
      </div>
      <details class="fold">
        <summary>{W.more}</summary>
        {state !== 'stopped' && (
          <>
            <p class="soft">{W.stopHint}</p>
            <Step view={view} step="stop" says={W.stop} quiet />
          </>
        )}
        {!isOpenDeal && (
          <>
            <p class="soft">{W.endHint}</p>
            <Step view={view} step="end" says={W.end} quiet />
          </>
        )}
      </details>
    </section>
  )
}

/** Of a part that is not bought yet: buy it for those who said yes, or call it off. */
const Deal = ({ view, figures, typed, problems }: Props) => {
  const { row, isOpenDeal, result } = view
  if (row.kind !== 'deal' || row.state === 'draft' || row.state === 'called off') return null
  if (!isOpenDeal)
    return (
      <section class="card">
        <h2>{W.deal}</h2>
        <p>
          {fill(W.boughtLine, {
            n: figures.number(row.boughtPieces ?? 0),
            at: row.boughtAt === undefined ? '' : figures.date(row.boughtAt),
          })}
        </p>
      </section>
    )
  const counted = view.seats.filter(({ standing }) => standing === 'counted').length
  return (
    <section class="card form">
      <h2>{W.deal}</h2>
      <p>
        {fill(formOf(W.dealStock, row.wantedYeses ?? 1, PLURAL), {
          ...{ wanted: figures.number(row.wantedYeses ?? 1), counted: figures.number(counted) },
          asked: figures.number(result.of.asked.length),
        })}{' '}
        {fill(W.dealEnd, { date: figures.date(row.validUntil) })}
      </p>
      <form method="post" action={`${pathToRound(row.id)}/bought`}>
        <p class="hint">{W.boughtHint}</p>
        <div class="row">
          <Field
            name="boughtPieces"
            label={W.boughtPieces}
            typed={typed.has('boughtPieces') ? typed : new Map([['boughtPieces', [String(counted)]]])}
            problems={problems}
            inputmode="numeric"
            narrow
          />
          <Field
            name="boughtCost"
            label={W.boughtCost}
            typed={typed}
            problems={problems}
            inputmode="decimal"
            narrow
          />
        </div>
        <button class="button" type="submit">
          {W.bought}
        </button>
      </form>
      <p class="hint">{W.notBoughtHint}</p>
      <Step view={view} step="call-off" says={W.notBought} quiet />
    </section>
  )
}

const Items = ({ view, figures }: Shown) => (
  <>
    {view.items.map(({ item, quantity, left, asked }) => (
      <p>
        <a href={`/shelf/${encodeURIComponent(item.id)}`}>{partWords(view.parts, item.partId)}</a>{' '}
        <small>{item.id}</small>
        {': '}
        {view.isOpenDeal
          ? fill(W.dealAsked, { quantity: figures.number(quantity), asked: figures.number(asked) })
          : fill(formOf(W.stock, quantity, PLURAL), {
              ...{ quantity: figures.number(quantity), asked: figures.number(asked) },
              left: figures.number(left),
            })}
      </p>
    ))}
  </>
)

/** Each number of the result leads to the customers that it counts. */
const Results = ({ view, figures, show }: Shown & { readonly show: Counted | undefined }) => {
  const { result, row } = view
  if (row.state === 'draft') return null
  return (
    <section class="card">
      <h2>{W.result}</h2>
      <dl class="round-numbers">
        {COUNTED.map((name) => (
          <div>
            <dt>{ROUNDS_EN.counted[name]}</dt>
            <dd class="num">
              <a
                href={`${pathToRound(row.id)}?show=${encodeURIComponent(name)}#customers`}
                aria-current={show === name ? 'true' : undefined}
                aria-label={`${ROUNDS_EN.counted[name]}: ${figures.number(result.of[name].length)}`}
              >
                {figures.number(result.of[name].length)}
              </a>
            </dd>
          </div>
        ))}
      </dl>
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

const Next = ({ view }: Shown) => {
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

const Happened = ({ view, figures }: Shown) => {
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

const Customers = ({ view, figures, show }: Shown & { readonly show: Counted | undefined }) => {
  const counted = show === undefined ? undefined : new Set(view.result.of[show])
  const isIn = ({ standing }: RoundView['seats'][number]) => standing !== 'left out'
  const shown = view.seats.filter((seat) => (counted === undefined ? isIn(seat) : counted.has(seat.id)))
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
        <Seats seats={shown} view={view} figures={figures} />
      </section>
      {out.length > 0 && show === undefined && (
        <section class="card">
          <h2>{W.leftOut}</h2>
          <Seats seats={out} view={view} figures={figures} />
        </section>
      )}
    </>
  )
}

const Body = (props: Props & { readonly show: Counted | undefined; readonly now: string }) => {
  const { view, figures, problems, show, now } = props
  const { row, source } = view
  const isPreparing = row.state === 'draft' && row.preparedAt === undefined
  return (
    <>
      <div class="head">
        <h1>{fill(W.head, { id: row.id })}</h1>
        <p class="line">
          <span class="soft">
            {ROUNDS_EN.states[row.state]}. {fill(W.made, { at: figures.dateTime(row.createdAt) })}.
          </span>
          {source.from === 'matching' && (
            <a href={`/offers/${encodeURIComponent(source.matchingId)}`}>{W.ofMatching}</a>
          )}
          <a href="/rounds">{W.back}</a>
        </p>
      </div>
      <ProblemSummary problems={problems} labels={labelOf} kept={W.nothingDone} />
      <section class="card">
        <p>{ROUNDS_EN.stateSays[row.state]}</p>
        <Items view={view} figures={figures} />
        <p class="soft">
          {fill(W.factor, { factor: figures.decimal(source.overOffer) })}{' '}
          {fill(W.validUntil, { date: figures.date(row.validUntil) })}{' '}
          {now > row.validUntil && <b>{view.isOpenDeal && row.state !== 'draft' ? W.dealEnded : W.over}</b>}
        </p>
      </section>
      {isPreparing ? (
        <Preparing view={view} figures={figures} />
      ) : (
        row.state === 'draft' && <Draft view={view} figures={figures} />
      )}
      <Next view={view} figures={figures} />
      <Deal {...props} />
      <Going view={view} figures={figures} />
      <Results view={view} figures={figures} show={show} />
      <Customers view={view} figures={figures} show={show} />
      <Happened view={view} figures={figures} />
    </>
  )
}

const labelOf = (field: string): string | undefined =>
  ({ boughtPieces: W.boughtPieces, boughtCost: W.boughtCost })[field]

/** One round: its draft, its going out, and what came of it. */
export function roundRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed = new Map(), problems: readonly Problem[] = []) => {
    const found = await uses.round(param(c, 'id'))
    if (!found.ok) return problemPage(c, web, found.problems, 'Offers')
    const view = found.value
    const asked = COUNTED.find((name) => name === c.req.query('show'))
    const { row, written } = view
    const isPreparing = row.state === 'draft' && row.preparedAt === undefined && row.trouble === undefined
    const isGoing =
      row.state === 'going out' && (written.done < written.of || view.result.of.waiting.length > 0)
    if ((isPreparing || isGoing) && problems.length === 0) c.header('Refresh', String(AGAIN_S))
    const [first] = problems
    const figures = figuresOf(view.shop)
    return page(
      c,
      {
        ...{ title: fill(W.head, { id: row.id }), place: 'Offers', demo: options.demo },
        shopName: view.shop.name,
      },
      <Body {...{ view, figures, typed, problems, show: asked, now: uses.now() }} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  const after = async (c: Context, done: Result<unknown>, typed?: Typed) =>
    done.ok ? c.redirect(pathToRound(param(c, 'id')), 303) : show(c, typed, done.problems)

  app.get('/rounds/:id', (c) => show(c))

  app.post('/rounds/:id/begin', async (c) => {
    const seen = textOf(typedOf(await readForm(c)), 'seen') ?? ''
    return after(c, await uses.beginRound(param(c, 'id'), seen, nameOf(who(c))))
  })

  const step = (path: string, act: (id: string, by: string | undefined) => Promise<Result<unknown>>) =>
    app.post(`/rounds/:id/${path}`, async (c) => after(c, await act(param(c, 'id'), nameOf(who(c)))))
  step('pause', (id, by) => uses.pauseRound(id, by))
  step('resume', (id, by) => uses.resumeRound(id, by))
  step('stop', (id, by) => uses.stopRound(id, by))
  step('end', (id, by) => uses.endRound(id, by))
  step('call-off', (id, by) => uses.callOffRound(id, undefined, by))
  step('again', (id) => uses.prepareAgain(id))

  app.post('/rounds/:id/bought', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const pieces = reader.need('boughtPieces', whole(1, QUANTITY_MOST, 'pieces'), W.needPieces)
    const costMinor = reader.read('boughtCost', money)
    if (pieces === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    return after(c, await uses.boughtFor(param(c, 'id'), { pieces, costMinor }, nameOf(who(c))), typed)
  })

  const seat = (
    path: string,
    act: (id: string, seat: string, by: string | undefined) => Promise<Result<unknown>>,
  ) =>
    app.post(`/rounds/:id/seats/:seat/${path}`, async (c) =>
      after(c, await act(param(c, 'id'), param(c, 'seat'), nameOf(who(c)))),
    )
  seat('put-back', (id, one, by) => uses.putBack(id, one, by))
  seat('yes', (id, one, by) => uses.sayFor(id, one, 'yes', by))
  seat('no', (id, one, by) => uses.sayFor(id, one, 'no', by))
  seat('let-go', (id, one, by) => uses.letGo(id, one, undefined, by))
  seat('give', (id, one, by) => uses.giveTo(id, one, by))
  seat('anew', (id, one, by) => uses.askAnew(id, one, by))

  app.post('/rounds/:id/seats/:seat/leave-out', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const because = reader.read(`because.${param(c, 'seat')}`, line(300))
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    return after(c, await uses.leaveOut(param(c, 'id'), param(c, 'seat'), because, nameOf(who(c))))
  })

  app.post('/rounds/:id/seats/:seat/tell', async (c) => {
    const told = await uses.tellGone(param(c, 'id'), param(c, 'seat'), nameOf(who(c)))
    return told.ok ? c.redirect(pathToMail(told.value.mailId), 303) : stopped(c, web, told.problems)
  })

  // The mail's own HTML, unchanged, under a policy that lets it do nothing but look as it will look.
  app.get('/rounds/:id/seats/:seat/mail', async (c) => {
    const mail = await uses.offerMail(param(c, 'id'), param(c, 'seat'))
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Offers')
    c.header('Content-Security-Policy', PREVIEW_CSP)
    return c.html(html`${raw(mail.value.html)}`)
  })
}
