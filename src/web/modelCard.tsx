import type { Hono } from 'hono'
import { CELLS_MOST } from '../core/gain/modelCard/leftOut.ts'
import type { Spot } from '../core/gain/modelCard/modelCard.ts'
import type { ModelCardView } from '../uses/measure/modelCard.ts'
import type { NextRunsNow } from '../uses/measure/nextRuns.ts'
import { MEASURE_EN } from '../words/en/measure.ts'
import { WHY_EN } from '../words/en/why.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { NextRunsBlock } from './nextRuns.tsx'
import { LevelTable } from './promisesLevels.tsx'
import { titleName } from './settingText.ts'
import { PATIENCE_MS, waitingPage } from './waiting.tsx'

const W = MEASURE_EN.card

type Told = { readonly view: ModelCardView; readonly figures: Figures }

/** A log of a ratio as percent to one decimal, without a sign. */
const off = (log: number, figures: Figures): string =>
  `${figures.decimal(Math.round(1000 * Math.expm1(log)) / 10)}%`

const Whole = ({ view: { card }, figures }: Told) => {
  const { leftOut } = card
  const count = (n: number) => figures.number(n)
  const { from, until } = card
  return (
    <section class="card lesson">
      <h1>{W.head}</h1>
      {from === undefined || until === undefined ? (
        <p>{W.none}</p>
      ) : (
        <>
          <p>
            {fill(W.counts, {
              ...{ runs: count(card.runs), cells: count(card.cells) },
              ...{ from: figures.date(from), until: figures.date(until) },
            })}{' '}
            {fill(W.of, {
              ...{ titles: count(card.titles), settings: count(card.settings) },
              ...{ processors: count(card.processors), cards: count(card.cards) },
            })}
          </p>
          <p class="soft">
            {fill(W.made, { model: card.model, date: figures.date(card.fittedFor) })}
            {card.widthFactor !== 1 && ` ${fill(W.width, { factor: figures.times(card.widthFactor) })}`}
          </p>
          <h2>{W.leftHead}</h2>
          <p>
            {fill(W.left, {
              cells: count(leftOut.cells),
              error: off(leftOut.meanError, figures),
              half: off(leftOut.halfWidth, figures),
            })}
            {leftOut.untold > 0 && ` ${fill(W.untold, { n: count(leftOut.untold) })}`}
            {card.cells > CELLS_MOST && ` ${fill(W.some, { n: count(leftOut.cells + leftOut.untold) })}`}
          </p>
          <LevelTable
            levels={leftOut.levels.map(({ held, ...level }) => ({ ...level, kept: held }))}
            n={leftOut.cells}
            figures={figures}
            heads={{ stated: W.levels.stated, kept: W.levels.held, honest: W.levels.honest }}
          />
        </>
      )}
    </section>
  )
}

/** Spots that are told; the strongest of a large shop help nobody. */
const SPOTS_SHOWN = 12

const Weak = ({ view, figures }: Told) => {
  const { byTitle, byProcessor, byCard } = view.card
  const partName = (id: string) => view.parts.find((part) => part.id === id)?.name ?? id
  const named = (spots: readonly Spot[], nameOf: (id: string) => string) =>
    spots.filter(({ weaknesses }) => weaknesses.length > 0).map((spot) => ({ spot, name: nameOf(spot.id) }))
  const all = [
    ...named(byTitle, (id) => titleName(view.titles, id)),
    ...named(byProcessor, partName),
    ...named(byCard, partName),
  ]
    .sort(
      (a, b) => b.spot.weaknesses.length - a.spot.weaknesses.length || b.spot.halfWidth - a.spot.halfWidth,
    )
    .slice(0, SPOTS_SHOWN)
  const w = W.columns
  return (
    <section class="card lesson">
      <h2>{W.weakHead}</h2>
      {all.length === 0 ? (
        <p class="soft">{W.weakNone}</p>
      ) : (
        <table class="list">
          <thead>
            <tr>
              <th scope="col">{w.what}</th>
              <th scope="col" class="right">
                {w.cells}
              </th>
              <th scope="col" class="right">
                {w.error}
              </th>
              <th scope="col" class="right">
                {w.half}
              </th>
              <th scope="col">{w.why}</th>
            </tr>
          </thead>
          <tbody>
            {all.map(({ spot, name }) => (
              <tr>
                <td>{name}</td>
                <td class="right num" data-label={w.cells}>
                  {figures.number(spot.cells + spot.untold)}
                </td>
                <td class="right num" data-label={w.error}>
                  {spot.cells === 0 ? '–' : off(spot.meanError, figures)}
                </td>
                <td class="right num" data-label={w.half}>
                  {spot.cells === 0 ? '–' : off(spot.halfWidth, figures)}
                </td>
                <td data-label={w.why}>{spot.weaknesses.map((why) => W.weak[why]).join(', ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

const Body = ({ next, ...told }: Told & { next: NextRunsNow }) => (
  <>
    <Whole {...told} />
    {told.view.card.runs > 0 && <Weak {...told} />}
    <NextRunsBlock now={next} figures={told.figures} />
  </>
)

export function modelCardRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  app.get('/model', async (c) => {
    const [shop, found, next] = await Promise.all([uses.shop(), uses.modelCard(PATIENCE_MS), uses.nextRuns()])
    if (found.state === 'under way') return waitingPage(c, web, found.progress)
    const figures = figuresOf(shop)
    return page(
      c,
      { title: W.head, place: 'Runs', demo: options.demo, shopName: shop.name },
      found.state === 'failed' ? (
        <section class="card lesson">
          <h1>{W.head}</h1>
          <p class="nothing" role="status">
            {WHY_EN.failed}
          </p>
        </section>
      ) : (
        <Body view={found.told} figures={figures} next={next} />
      ),
    )
  })
}
