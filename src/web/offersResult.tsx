import type { Context, Hono } from 'hono'
import type { LeftOut, MatchedOffer, Matching } from '../core/matching/match.ts'
import type { MatchingView } from '../uses/matching/matching.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import {
  aimWords,
  bestWords,
  counted,
  leftWords,
  nextWords,
  offerWords,
  type Shown,
  valueWords,
} from '../words/offers.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { comesAgain, ForgetWork, WorkStanding } from './longWork.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'

const W = OFFERS_EN.result

export const pathToMatching = (id: string): string => `/offers/${encodeURIComponent(id)}`

type Props = { view: MatchingView; matching: Matching; shown: Shown }

const Customer = ({ view, id }: { view: MatchingView; id: string }) => <>{view.nameOf.get(id) ?? W.gone}</>

const Offer = ({ offer, view, shown }: { offer: MatchedOffer; view: MatchingView; shown: Shown }) => {
  const { figures, parts } = shown
  const { useful, machineTag, netMinor, questionId, customerId } = offer
  const low = figures.gainPct(useful.pctLow)
  const high = figures.gainPct(useful.pctHigh)
  return (
    <tr>
      <td>
        <Customer view={view} id={customerId} /> <Tag tag={machineTag} />
      </td>
      <td data-label={W.offer}>
        {offerWords(offer, parts)}
        <br />
        <small>
          {nextWords(offer, shown)}{' '}
          {view.questionOf.has(questionId) && (
            <a href={pathTo('questions', questionId)}>“{view.questionOf.get(questionId)?.words}”</a>
          )}
        </small>
      </td>
      <td class="right" data-label={W.gain}>
        <b>{figures.gainPct(useful.pct)}</b>
        <br />
        <small>
          {fill(W.interval, { low, high })}, {useful.grade}
        </small>
      </td>
      <td class="right" data-label={W.price}>
        {figures.money(netMinor)}
      </td>
    </tr>
  )
}

const Offers = ({ view, matching, shown }: Props) => (
  <section class="card">
    <h2>{W.offers}</h2>
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{W.customer}</th>
          <th scope="col">{W.offer}</th>
          <th scope="col" class="right">
            {W.gain}
          </th>
          <th scope="col" class="right">
            {W.price}
          </th>
        </tr>
      </thead>
      <tbody>
        {matching.offers.map((offer) => (
          <Offer offer={offer} view={view} shown={shown} />
        ))}
      </tbody>
    </table>
  </section>
)

const Items = ({ matching, shown }: Omit<Props, 'view'>) => (
  <section class="card">
    <h2>{W.items}</h2>
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{W.item}</th>
          <th scope="col" class="right">
            {W.offered}
          </th>
          <th scope="col" class="right">
            {W.could}
          </th>
          <th scope="col" class="right">
            {W.oneMore}
          </th>
        </tr>
      </thead>
      <tbody>
        {matching.items.map(({ itemId, partId, offered, places, couldGo, oneMore }) => (
          <tr>
            <td>
              {partWords(shown.parts, partId)} <small>{itemId}</small>
            </td>
            <td class="right" data-label={W.offered}>
              {fill(W.offeredOf, { offered: String(offered), places: String(places) })}
            </td>
            <td class="right" data-label={W.could}>
              {counted(OFFERS_EN.count, couldGo)}
            </td>
            <td class="right" data-label={W.oneMore}>
              {valueWords(oneMore, matching.ask, shown.figures)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
)

const Companions = ({ matching, shown }: Omit<Props, 'view'>) => (
  <section class="card">
    <h2>{W.beside}</h2>
    <p class="hint">{matching.ask.companions === 'counted' ? W.besideCounted : W.besideAgain}</p>
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{W.item}</th>
          <th scope="col" class="right">
            {W.used}
          </th>
          <th scope="col" class="right">
            {W.oneMore}
          </th>
        </tr>
      </thead>
      <tbody>
        {matching.companions.map(({ itemId, partId, used, places, oneMore = 0 }) => (
          <tr>
            <td>
              {partWords(shown.parts, partId)} <small>{itemId}</small>
            </td>
            <td class="right" data-label={W.used}>
              {fill(W.usedOf, { used: String(used), places: String(places) })}
              {used > places && <b>, {fill(W.toBuy, { n: String(used - places) })}</b>}
            </td>
            <td class="right" data-label={W.oneMore}>
              {valueWords(oneMore, matching.ask, shown.figures)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
)

const Left = ({ left, view, shown }: { left: LeftOut; view: MatchingView; shown: Shown }) => (
  <li>
    <p class="line">
      <b>
        <Customer view={view} id={left.customerId} />
      </b>
      {left.machineTag !== undefined && <Tag tag={left.machineTag} />}
    </p>
    <p>{leftWords(left, shown)}</p>
  </li>
)

const Result = ({ view, matching, shown }: Props) => {
  const { offers, leftOut, totalPct, totalMarginMinor, certificate, ask } = matching
  const { figures } = shown
  const totals = counted(W.totals, offers.length, { gain: figures.gainPct(totalPct) })
  return (
    <>
      <section class="card">
        <p>
          {offers.length === 0 ? W.none : <b>{totals}</b>}{' '}
          {totalMarginMinor !== undefined &&
            fill(W.margin, { margin: figures.money(totalMarginMinor, true) })}
        </p>
        <p>{aimWords(ask, figures)}</p>
        <p class={certificate.holds ? 'hint' : 'wrong'}>{bestWords(matching, figures)}</p>
      </section>
      {offers.length > 0 && <Offers view={view} matching={matching} shown={shown} />}
      <Items matching={matching} shown={shown} />
      {matching.companions.length > 0 && <Companions matching={matching} shown={shown} />}
      <section class="card">
        <h2>{W.left}</h2>
        {leftOut.length === 0 ? (
          <p class="nothing">{W.noneLeft}</p>
        ) : (
          <ul class="ruled">
            {leftOut.map((left) => (
              <Left left={left} view={view} shown={shown} />
            ))}
          </ul>
        )}
      </section>
    </>
  )
}

/** From the plan to mails: a draft that is looked through before anything goes out. */
const MakeRound = ({ path }: { path: string }) => (
  <form method="post" action={`${path}/round`} class="card">
    <OnceKey />
    <p class="hint">{ROUNDS_EN.fromMatchingHint}</p>
    <button class="button" type="submit">
      {ROUNDS_EN.fromMatching}
    </button>
  </form>
)

export function offersResultRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/offers/:id', async (c: Context) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.matching(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Offers')
    const view = found.value
    const figures = figuresOf(shop)
    const partOf = (itemId: string) => view.items.find(({ id }) => id === itemId)?.partId ?? itemId
    const shown: Shown = { figures, parts: view.parts, partOf }
    const { id, askedAt } = view.work
    const work = { work: view.work, path: pathToMatching(id) }
    comesAgain(c, view.work)
    return page(
      c,
      { title: W.head, place: 'Offers', demo: options.demo, shopName: shop.name },
      <>
        <div class="head">
          <h1>{W.head}</h1>
          <p class="line">
            <span class="soft">{fill(OFFERS_EN.list.of, { at: figures.dateTime(askedAt) })}</span>
            <a href="/offers">{W.back}</a>
          </p>
        </div>
        <WorkStanding
          {...work}
          progress={view.progress}
          words={{ ...W, progress: OFFERS_EN.progress }}
          figures={figures}
        />
        {view.matching !== undefined && <Result view={view} matching={view.matching} shown={shown} />}
        {(view.matching?.offers.length ?? 0) > 0 && <MakeRound path={pathToMatching(id)} />}
        <ForgetWork {...work} />
      </>,
    )
  })

  app.post('/offers/:id/call-off', async (c) => {
    await uses.callOffMatching(param(c, 'id'))
    return c.redirect(pathToMatching(param(c, 'id')), 303)
  })
  app.post('/offers/:id/forget', async (c) => {
    const gone = await uses.forgetMatching(param(c, 'id'))
    if (!gone.ok) return problemPage(c, web, gone.problems, 'Offers')
    return c.redirect('/offers', 303)
  })
}
