import type { Context, Hono } from 'hono'
import { html, raw } from 'hono/html'
import { COUNTED, type Counted } from '../core/round/result.ts'
import { line } from '../input/cells.ts'
import { type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { RoundView } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, readingFor, type Web } from './frame.ts'
import { PREVIEW_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { pathToMail } from './outboxParts.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { bookingRoutes } from './roundBooking.tsx'
import { Deal, dealRoutes } from './roundDeal.tsx'
import { Draft, Going, Preparing } from './roundGoing.tsx'
import { counted, type Shown } from './roundParts.tsx'
import { Customers, Happened, Next, Notices, pathToApprove, Results } from './roundResult.tsx'
import { pathToRound } from './rounds.tsx'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'

const W = ROUNDS_EN.round
/** While something is on its way the page comes again by itself, also without a script. */
const AGAIN_S = 3

/** What is offered: how many, to how many, and how many are left. */
const Items = ({ view, figures }: Shown) => (
  <>
    {view.items.map(({ item, quantity, left, free, asked }) => {
      const values = {
        quantity: figures.number(quantity),
        asked: figures.number(asked),
        left: figures.number(left),
        free: figures.number(free),
      }
      const isDraft = view.row.state === 'draft'
      const isDropped = view.row.state === 'called off' && view.row.begunAt === undefined
      // A part that was not bought has no place on the shelf any more.
      const hasPlace = view.row.state !== 'called off' || !view.isOpenDeal
      return (
        <p>
          {hasPlace ? (
            <a href={`/shelf/${encodeURIComponent(item.id)}`}>{partWords(view.parts, item.partId)}</a>
          ) : (
            partWords(view.parts, item.partId)
          )}{' '}
          <small>{item.id}</small>
          {': '}
          {isDropped
            ? W.dropped
            : view.isOpenDeal
              ? hasPlace
                ? fill(isDraft ? W.dealDraft : W.dealAsked, values)
                : counted(W.dealOff, asked, figures, values)
              : counted(isDraft ? W.stockDraft : W.stock, quantity, figures, values)}{' '}
          {isDraft && counted(W.toAsk, asked, figures, values)}
        </p>
      )
    })}
  </>
)

/** To how many a piece is offered, and until when. */
const Terms = ({ view, figures, now }: Shown & { readonly now: string }) => {
  const { row, source, notes, isOpenDeal } = view
  const { state, validUntil } = row
  const date = figures.date(validUntil)
  const endedAt = notes.findLast(({ event }) => event === 'end')?.at
  const isAsking = state !== 'ended' && state !== 'called off'
  const isDraft = state === 'draft'
  return (
    <p class="soft">
      {source.from === 'item' && source.tags.length > 0
        ? W.named
        : fill(W.factor, { factor: figures.decimal(source.overOffer) })}{' '}
      {isAsking && W.first}{' '}
      {endedAt !== undefined
        ? fill(W.endedOn, { date: figures.date(endedAt) })
        : isAsking &&
          (row.kind === 'deal' && isDraft
            ? counted(W.wantedDraft, row.wantedYeses ?? 1, figures, { date })
            : fill(W.validUntil, { date }))}{' '}
      {isAsking && now > validUntil && <b>{isOpenDeal && !isDraft ? W.dealEnded : W.over}</b>}
    </p>
  )
}

/** What is so now: mails that are all out do not go out any more, and after the date nobody can say yes. */
function stateSays({ row: { state, validUntil }, result }: RoundView, now: string): string {
  const isRunning = state === 'going out' || state === 'paused' || state === 'stopped'
  if (isRunning && now > validUntil) return ROUNDS_EN.noYesAnyMore
  return state === 'going out' && result.of.waiting.length === 0
    ? ROUNDS_EN.allOut
    : ROUNDS_EN.stateSays[state]
}

const Body = (props: Shown & { readonly show: Counted | undefined; readonly now: string }) => {
  const { view, figures, problems, now } = props
  const { row, source } = view
  const isPreparing = row.state === 'draft' && row.preparedAt === undefined
  const held = view.result.of.reserved.length
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
        <p>
          {stateSays(view, now)} {row.state === 'ended' && held > 0 && counted(W.stays, held, figures)}
        </p>
        <Items {...props} />
        <Terms {...props} />
      </section>
      {isPreparing ? <Preparing {...props} /> : row.state === 'draft' && <Draft {...props} now={now} />}
      <Next {...props} />
      <Notices {...props} />
      <Deal {...props} />
      <Going {...props} />
      <Results {...props} />
      <Customers {...props} />
      <Happened {...props} />
    </>
  )
}

const LABELS: Readonly<Record<string, string>> = {
  ...{ boughtPieces: W.boughtPieces, boughtCost: W.boughtCost, because: W.leaveWhy },
  ...{ bookedDay: W.workDay, bookedTime: W.yesTime, sure: ROUNDS_EN.list.boughtSure, round: W.it },
}
/** A field about one customer ends with their number. */
const labelOf = (field: string): string | undefined => LABELS[field.replace(/\.\d+$/, '')]

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

  dealRoutes(app, web, show, after)
  bookingRoutes(app, web, show, after)

  const seat = (
    path: string,
    act: (id: string, seat: string, by: string | undefined) => Promise<Result<unknown>>,
  ) =>
    app.post(`/rounds/:id/seats/:seat/${path}`, async (c) =>
      after(c, await act(param(c, 'id'), param(c, 'seat'), nameOf(who(c)))),
    )
  seat('put-back', (id, one, by) => uses.putBack(id, one, by))
  seat('no', (id, one, by) => uses.sayFor(id, one, 'no', undefined, by))
  seat('let-go', (id, one, by) => uses.letGo(id, one, undefined, by))
  seat('give', (id, one, by) => uses.giveTo(id, one, by))
  seat('anew', (id, one, by) => uses.askAnew(id, one, by))

  app.post('/rounds/:id/seats/:seat/leave-out', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const because = reader.read(`because.${param(c, 'seat')}`, line(300))
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    return after(c, await uses.leaveOut(param(c, 'id'), param(c, 'seat'), because, nameOf(who(c))), typed)
  })

  app.post('/rounds/:id/seats/:seat/tell', async (c) => {
    const told = await uses.tellGone(param(c, 'id'), param(c, 'seat'), nameOf(who(c)))
    return told.ok ? c.redirect(pathToMail(told.value.mailId), 303) : stopped(c, web, told.problems)
  })

  app.post('/rounds/:id/tell', async (c) => {
    const told = await uses.tellAll(param(c, 'id'), nameOf(who(c)))
    return told.ok ? c.redirect(pathToApprove(told.value.mailIds), 303) : stopped(c, web, told.problems)
  })

  // The mail's own HTML, unchanged, under a policy that lets it do nothing but look as it will look.
  app.get('/rounds/:id/seats/:seat/mail', async (c) => {
    const mail = await uses.offerMail(param(c, 'id'), param(c, 'seat'))
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Offers')
    c.header('Content-Security-Policy', PREVIEW_CSP)
    return c.html(html`${raw(mail.value.html)}`)
  })
}
