import type { Context, Hono } from 'hono'
import type { Shop } from '../core/answer.ts'
import { type Demand, soldAt, type Taker } from '../core/matching/demand.ts'
import { key, money, number } from '../input/cells.ts'
import { majorText } from '../input/numbers.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { DemandView } from '../uses/matching/demand.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { counted, hundred, leftWords, offerWords } from '../words/offers.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { Field, ProblemSummary, type Typed, typedOf } from './form.tsx'
import { figuresOf, param, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { comesAgain, ForgetWork, isOpen, WorkStanding } from './longWork.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = OFFERS_EN.price
const R = OFFERS_EN.result
const L = OFFERS_EN.list

/** Percent of gain for a hundred of money that is taken to be wanted where nobody says. */
export const LEAST_PCT = 10

export const pathToDemand = (id: string): string => `/offers/price/${encodeURIComponent(id)}`

/** What one part may cost: asked about here, worked out beside. */
export const PriceForm = ({
  shop,
  typed,
  problems,
}: { shop: Shop } & { typed: Typed; problems: readonly Problem[] }) => {
  const form = { typed, problems }
  const unit = fill(L.reverseLeastUnit, { money: hundred(shop.policy.currency, figuresOf(shop)) })
  return (
    <form method="post" action="/offers/price" class="form">
      <OnceKey />
      <div class="row">
        <Field {...form} name="of" label={L.reverse} hint={L.reverseHint} />
        <Field {...form} name="price" label={L.reversePrice} inputmode="decimal" narrow />
        <Field {...form} name="least" label={L.reverseLeast} unit={unit} inputmode="decimal" narrow />
      </div>
      <p class="does">
        <button class="button quiet" type="submit">
          {L.reverseAsk}
        </button>
      </p>
    </form>
  )
}

const TakerRow = ({ taker, at, view, shop }: { taker: Taker; at: number; view: DemandView; shop: Shop }) => {
  const { parts, nameOf } = view
  const figures = figuresOf(shop)
  const { useful, machineTag, mostMinor, way, barred, customerId } = taker
  const low = figures.gainPct(useful.pctLow)
  const high = figures.gainPct(useful.pctHigh)
  const why = { figures, parts, partOf: (id: string) => id }
  return (
    <tr>
      <td class="right" data-label={W.nth}>
        {at + 1}
      </td>
      <td class="right" data-label={W.most}>
        <b>{mostMinor < 0 ? W.gift : figures.money(mostMinor, true)}</b>
      </td>
      <td>
        <Tag tag={machineTag} /> {nameOf.get(customerId) ?? R.gone}
        <br />
        <small>
          {offerWords(way, parts)}
          {barred !== undefined &&
            `. ${fill(W.also, { why: leftWords({ customerId, reason: barred }, why) })}`}
        </small>
      </td>
      <td class="right" data-label={W.gain}>
        {figures.gainPct(useful.pct)}
        <br />
        <small>{fill(R.interval, { low, high })}</small>
      </td>
    </tr>
  )
}

const Told = ({ view, demand, shop }: { view: DemandView; demand: Demand; shop: Shop }) => {
  const { parts } = view
  const figures = figuresOf(shop)
  const { takers, others, machines, ask } = demand
  const { priceMinor } = ask.item
  const money100 = hundred(shop.policy.currency, figures)
  return (
    <>
      <section class="card">
        <p>
          <b>
            {fill(W.about, {
              ...{
                part: partWords([...parts, ask.part], ask.part.id),
                price: figures.money(priceMinor, true),
              },
              ...{
                takers: counted(W.takers, takers.length),
                sold: counted(W.sold, soldAt(takers, priceMinor)),
              },
            })}
          </b>{' '}
          {fill(W.of, { machines: String(machines) })}
        </p>
        <p class="hint">{fill(W.how, { least: figures.decimal(ask.leastPctPer100), money: money100 })}</p>
        {takers.length === 0 ? (
          <p class="nothing">{W.none}</p>
        ) : (
          <>
            <p>{W.table}</p>
            <table class="list">
              <thead>
                <tr>
                  <th scope="col" class="right">
                    {W.nth}
                  </th>
                  <th scope="col" class="right">
                    {W.most}
                  </th>
                  <th scope="col">{W.who}</th>
                  <th scope="col" class="right">
                    {W.gain}
                  </th>
                </tr>
              </thead>
              <tbody>
                {takers.map((taker, at) => (
                  <TakerRow taker={taker} at={at} view={view} shop={shop} />
                ))}
              </tbody>
            </table>
          </>
        )}
      </section>
      {others.length > 0 && (
        <section class="card">
          <h2>{W.others}</h2>
          <ul class="ruled">
            {others.map(({ because, machines: n }) => (
              <li>
                <p>
                  <b class="num">{counted(W.othersCounted, n)}</b>: {W.otherWords[because] ?? because}
                </p>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}

const LABELS: Readonly<Record<string, string>> = {
  ...{ of: L.reverse, price: L.reversePrice, least: L.reverseLeast },
}
const labelOf = (field: string): string | undefined => LABELS[field]

export function offersPriceRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const ask = (c: Context, shop: Shop, typed: Typed, problems: readonly Problem[]) =>
    page(
      c,
      { title: W.head, place: 'Offers', demo: options.demo, shopName: shop.name },
      <>
        <div class="head">
          <h1>{W.head}</h1>
          <p class="line">
            <a href="/offers">{R.back}</a>
          </p>
        </div>
        <section class="card">
          <ProblemSummary problems={problems} labels={labelOf} />
          <PriceForm shop={shop} typed={typed} problems={problems} />
        </section>
      </>,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )

  app.get('/offers/price', async (c) => {
    const of = c.req.query('of')
    const typed: Typed = new Map([
      ['least', [String(LEAST_PCT)]],
      ...(of === undefined ? [] : [['of', [of]] as const]),
    ])
    return ask(c, await uses.shop(), typed, [])
  })

  app.post('/offers/price', async (c) => {
    const typed = typedOf(await readForm(c))
    const shop = await uses.shop()
    const reader = fieldReader(typed, readingFor(shop))
    const of = reader.need('of', key, W.whichPart)
    const priceMinor = reader.read('price', money)
    const leastPctPer100 = reader.read('least', number(0.01, 100_000, '%')) ?? LEAST_PCT
    if (of === undefined || reader.problems.length > 0) return ask(c, shop, typed, reader.problems)
    const asked = await uses.askDemand({ of, priceMinor, leastPctPer100 })
    return asked.ok ? c.redirect(pathToDemand(asked.value.id), 303) : ask(c, shop, typed, asked.problems)
  })

  app.get('/offers/price/:id', async (c) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.demand(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Offers')
    const view = found.value
    const { demand, query } = view
    const figures = figuresOf(shop)
    const work = { work: view.work, path: pathToDemand(view.work.id) }
    comesAgain(c, view.work)
    const priceMinor = query.priceMinor ?? demand?.ask.item.priceMinor
    const digits = readingFor(shop).currencyDigits ?? 2
    const typed: Typed = new Map([
      ['of', [query.of]],
      ['least', [figures.decimal(query.leastPctPer100)]],
      ...(priceMinor === undefined ? [] : [['price', [majorText(priceMinor, digits)]] as const]),
    ])
    return page(
      c,
      { title: W.head, place: 'Offers', demo: options.demo, shopName: shop.name },
      <>
        <div class="head">
          <h1>{W.head}</h1>
          <p class="line">
            <span class="soft">{fill(L.of, { at: figures.dateTime(view.work.askedAt) })}</span>
            <a href="/offers">{R.back}</a>
          </p>
        </div>
        <WorkStanding
          {...work}
          progress={view.progress}
          words={{ ...W, progress: OFFERS_EN.progress }}
          figures={figures}
        />
        {demand !== undefined && <Told view={view} demand={demand} shop={shop} />}
        {demand !== undefined && demand.takers.length > 0 && (
          <p class="line">
            <a href={`/rounds?of=${encodeURIComponent(query.of)}#new`}>{ROUNDS_EN.offerIt}</a>
          </p>
        )}
        {!isOpen(view.work) && (
          <section class="card">
            <h2>{W.again}</h2>
            <PriceForm shop={shop} typed={typed} problems={[]} />
          </section>
        )}
        <ForgetWork {...work} />
      </>,
    )
  })

  app.post('/offers/price/:id/call-off', async (c) => {
    await uses.callOffDemand(param(c, 'id'))
    return c.redirect(pathToDemand(param(c, 'id')), 303)
  })
  app.post('/offers/price/:id/forget', async (c) => {
    const gone = await uses.forgetDemand(param(c, 'id'))
    if (!gone.ok) return problemPage(c, web, gone.problems, 'Offers')
    return c.redirect('/offers', 303)
  })
}
