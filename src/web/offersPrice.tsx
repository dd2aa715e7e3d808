import type { Hono } from 'hono'
import type { Shop } from '../core/answer.ts'
import { soldAt, type Taker } from '../core/matching/demand.ts'
import { key, money, number } from '../input/cells.ts'
import { majorText } from '../input/numbers.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { DemandView } from '../uses/matching/matching.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import { counted, hundred, leftWords, offerWords } from '../words/offers.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { Field, ProblemSummary, type Typed } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { fieldReader } from './typed.ts'

const W = OFFERS_EN.price
const R = OFFERS_EN.result
const L = OFFERS_EN.list

/** Percent of gain for a hundred of money that is taken to be wanted where nobody says. */
export const LEAST_PCT = 10

/** What one part may cost: asked by a link, so that it can be kept and sent on. */
export const PriceForm = ({
  shop,
  typed,
  problems,
}: { shop: Shop } & { typed: Typed; problems: readonly Problem[] }) => {
  const form = { typed, problems }
  const unit = fill(L.reverseLeastUnit, { money: hundred(shop.policy.currency, figuresOf(shop)) })
  return (
    <form method="get" action="/offers/price" class="form">
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

const Told = ({ view, shop }: { view: DemandView; shop: Shop }) => {
  const { demand, priceMinor, parts } = view
  const figures = figuresOf(shop)
  const { takers, others, machines, ask } = demand
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

export function offersPriceRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/offers/price', async (c) => {
    const shop = await uses.shop()
    const reading = readingFor(shop)
    const typed = new Map(
      ['of', 'price', 'least'].flatMap((name) => {
        const text = c.req.query(name)
        return text === undefined ? [] : [[name, [text]] as const]
      }),
    )
    const reader = fieldReader(typed, reading)
    const of = reader.need('of', key, 'Say which part: the id of a shelf item, or of a part.')
    const priceMinor = reader.read('price', money)
    const leastPctPer100 = reader.read('least', number(0.01, 100_000, '%')) ?? LEAST_PCT
    const asked =
      of === undefined || reader.problems.length > 0
        ? undefined
        : await uses.demand({ of, priceMinor, leastPctPer100 })
    const problems: readonly Problem[] =
      asked === undefined ? reader.problems : asked.ok ? [] : asked.problems
    const labelOf = (field: string) => (field === 'of' ? OFFERS_EN.list.reverse : undefined)
    const again: Typed =
      asked?.ok === true
        ? new Map([...typed, ['price', [majorText(asked.value.priceMinor, reading.currencyDigits ?? 2)]]])
        : typed
    return page(
      c,
      { title: W.head, place: 'Offers', demo: options.demo, shopName: shop.name },
      <>
        <div class="head">
          <h1>{W.head}</h1>
          <p class="line">
            <a href="/offers">{R.back}</a>
          </p>
        </div>
        <ProblemSummary problems={problems} labels={labelOf} kept={W.again} />
        {asked?.ok === true && <Told view={asked.value} shop={shop} />}
        <section class="card">
          <h2>{W.again}</h2>
          <PriceForm shop={shop} typed={again} problems={problems} />
        </section>
      </>,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )
  })
}
