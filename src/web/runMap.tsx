import type { Hono } from 'hono'
import { pairKey } from '../core/gain/measuredMap.ts'
import type { NextRunsNow } from '../uses/measure/nextRuns.ts'
import {
  type MeasuredCell,
  type MeasuredSide,
  type MeasuredView,
  startOf,
} from '../uses/runs/viewMeasured.ts'
import { RUN_MAP_EN as W } from '../words/en/runMap.ts'
import type { Figures } from '../words/figures.ts'
import { counted } from '../words/offers.ts'
import { fill } from '../words/say.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { NEXT_SHOWN, NextRunsBlock } from './nextRuns.tsx'
import { listPath } from './pages.tsx'
import { GridKey, PairGrid } from './pictures/pairGrid.tsx'
import { pathToSheet } from './sheetFor.ts'

export const MAP_PATH = '/runs/map'

/** What a phone has room for across, at 24 px and more each; and as many down as a desk shows without scrolling. */
const ACROSS = 10
const DOWN = 15
const PAIRS_A_PAGE = 25

/** Where the pieces of map and list begin, as the address says. */
type At = { readonly across: number; readonly down: number; readonly at: number }
type Shown = { view: MeasuredView; at: At; figures: Figures }

const addressOf = ({ title }: Pick<MeasuredView, 'title'>, at: At, moved: Partial<At>): string => {
  const { across, down, at: from } = { ...at, ...moved }
  return listPath(MAP_PATH, {
    ...{ title: title?.id, across: across || undefined, down: down || undefined, at: from || undefined },
  })
}

type WaysProps = {
  label: string
  range: string
  start: number
  most: number
  total: number
  to: (start: number) => string
  before: string
  after: string
  figures: Figures
}

/** The ways to the pieces before and after; nothing where there is one. */
const Ways = ({ label, range, start, most, total, to, before, after, figures }: WaysProps) =>
  total <= most ? null : (
    <nav aria-label={label} class="line">
      {start > 0 && <a href={to(Math.max(0, start - most))}>{before}</a>}
      <span class="soft">
        {fill(range, {
          from: figures.number(start + 1),
          to: figures.number(Math.min(start + most, total)),
          total: figures.number(total),
        })}
      </span>
      {start + most < total && <a href={to(start + most)}>{after}</a>}
    </nav>
  )

const ChooseTitle = ({ view }: { view: MeasuredView }) => (
  <search>
    <form method="get" action={MAP_PATH} class="find">
      <label for="map-title">{W.find.title}</label>
      <select id="map-title" name="title">
        <option value="">{W.find.all}</option>
        {view.titles.map(({ id, name }) => (
          <option value={id} selected={id === view.title?.id}>
            {name}
          </option>
        ))}
      </select>
      <button class="button quiet" type="submit">
        {W.find.go}
      </button>
    </form>
  </search>
)

const Picture = ({ view, at, figures, next }: Shown & { next: NextRunsNow }) => {
  const { title, processors, cards } = view
  const told =
    next.state !== 'told'
      ? []
      : next.view.runs
          .slice(0, NEXT_SHOWN)
          .filter(({ titleId }) => title === undefined || titleId === title.id)
  const sheets = new Map(told.map((run) => [pairKey(run.fitted), pathToSheet(run)]))
  const sideWays = (side: 'processors' | 'cards', key: 'across' | 'down', most: number) => {
    const { total }: MeasuredSide = view[side]
    const { pages: label, range } = W.sides[side]
    return (
      <Ways
        {...{ label, range, most, total, figures, start: startOf(at[key], most, total) }}
        {...{ before: W.more[side], after: W.fewer[side] }}
        to={(start) => addressOf(view, at, { [key]: start })}
      />
    )
  }
  const isWhole = processors.total <= ACROSS && cards.total <= DOWN
  return (
    <figure>
      {sideWays('processors', 'across', ACROSS)}
      {sideWays('cards', 'down', DOWN)}
      <PairGrid
        {...{ processors: processors.lines, cards: cards.lines, cells: view.cells }}
        numberOf={({ titles, runs }) => (title === undefined ? titles : runs)}
        toRuns={({ processorId, cardId }) =>
          listPath('/runs', { processor: processorId, card: cardId, title: title?.id })
        }
        toSheet={(pair) =>
          sheets.get(pairKey(pair)) ??
          `/runs/new?${new URLSearchParams({
            ...{ machine: '', processorId: pair.processorId, cardId: pair.cardId },
            ...(title !== undefined && { title: title.id }),
          })}`
        }
        suggested={new Set(sheets.keys())}
      />
      <figcaption>
        {title === undefined ? W.cell.titles : fill(W.cell.runs, { title: title.name })} {W.opens}
        {!isWhole && ` ${W.ordered}`}
        <GridKey hasNext={sheets.size > 0} />
      </figcaption>
    </figure>
  )
}

const Line = ({ cell, view, figures }: { cell: MeasuredCell; view: MeasuredView; figures: Figures }) => {
  const { processorId, cardId, runs, titles, lastAt, known } = cell
  const nameOf = (id: string) => view.names.get(id) ?? id
  return (
    <tr>
      <td>
        <a href={listPath('/runs', { processor: processorId, card: cardId, title: view.title?.id })}>
          {nameOf(processorId)} · {nameOf(cardId)}
        </a>
      </td>
      <td class="right num" data-label={W.list.runs}>
        {figures.number(runs)}
      </td>
      {view.title === undefined && (
        <td class="right num" data-label={W.list.titles}>
          {figures.number(titles)}
        </td>
      )}
      <td data-label={W.list.last}>{figures.shortDate(lastAt)}</td>
      <td data-label={W.list.known}>{W.known[known]}</td>
    </tr>
  )
}

/** Every pair as text: what the map shows, and what it has no room for. */
const List = ({ view, at, figures }: Shown) => (
  <section class="card" id="pairs">
    <h2>{W.list.head}</h2>
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{W.list.pair}</th>
          <th scope="col" class="right">
            {W.list.runs}
          </th>
          {view.title === undefined && (
            <th scope="col" class="right">
              {W.list.titles}
            </th>
          )}
          <th scope="col">{W.list.last}</th>
          <th scope="col">{W.list.known}</th>
        </tr>
      </thead>
      <tbody>
        {view.pairs.lines.map((cell) => (
          <Line cell={cell} view={view} figures={figures} />
        ))}
      </tbody>
    </table>
    <Ways
      {...{ label: W.list.pages, range: W.list.range, most: PAIRS_A_PAGE, total: view.pairs.total, figures }}
      {...{ before: W.list.before, after: W.list.after }}
      start={startOf(at.at, PAIRS_A_PAGE, view.pairs.total)}
      to={(start) => `${addressOf(view, at, { at: start })}#pairs`}
    />
  </section>
)

const NeverRun = ({ view }: { view: MeasuredView }) => {
  const kinds = (['processor', 'card'] as const).filter((kind) => view.neverRun[kind].total > 0)
  if (kinds.length === 0) return null
  return (
    <section class="card lesson" id="never-run">
      <h2>{W.neverRun.head}</h2>
      <p class="soft">{W.neverRun.says}</p>
      {kinds.map((kind) => {
        const { lines, total } = view.neverRun[kind]
        const field = kind === 'processor' ? 'processorId' : 'cardId'
        return (
          <p>
            <b>{W.neverRun.kinds[kind]}:</b>{' '}
            {lines.map(({ id, name }, i) => (
              <>
                {i > 0 && ', '}
                <a href={`/runs/new?${new URLSearchParams({ machine: '', [field]: id })}`}>{name}</a>
              </>
            ))}
            {total > lines.length && ` ${counted(W.neverRun.further, total - lines.length)}`}
          </p>
        )
      })}
    </section>
  )
}

const RunMap = (props: Shown & { next: NextRunsNow }) => {
  const { view, figures, next } = props
  const { number } = figures
  if (view.runs === 0)
    return (
      <>
        <h1>{W.title}</h1>
        <section class="card empty">
          <p>{W.none}</p>
          <p class="line">
            {Object.entries(W.begin).map(([path, says]) => (
              <a href={path}>{says}</a>
            ))}
          </p>
        </section>
        <NeverRun view={view} />
      </>
    )
  return (
    <>
      <section class="card">
        <h1>{view.title === undefined ? W.title : fill(W.of, { title: view.title.name })}</h1>
        <p>
          {fill(W.lead, {
            pairs: number(view.pairs.total),
            possible: number(view.processors.total * view.cards.total),
            processors: number(view.processors.total),
            cards: number(view.cards.total),
            runs: number(view.runs),
          })}
        </p>
        <ChooseTitle view={view} />
        <Picture {...props} />
        <p>
          <a href={listPath('/runs', { title: view.title?.id })}>{W.allRuns}</a>
        </p>
      </section>
      <NextRunsBlock now={next} figures={figures} here={MAP_PATH} />
      <List {...props} />
      <NeverRun view={view} />
    </>
  )
}

/** A place in a list; what is none is the first. */
const placeOf = (typed: string | undefined): number => (/^\d{1,6}$/.test(typed ?? '') ? Number(typed) : 0)

export function runMapRoutes(app: Hono, { uses, options }: Web): void {
  app.get(MAP_PATH, async (c) => {
    const shop = await uses.shop()
    const at = {
      across: placeOf(c.req.query('across')),
      down: placeOf(c.req.query('down')),
      at: placeOf(c.req.query('at')),
    }
    const view = await uses.measured({
      titleId: c.req.query('title') || undefined,
      processors: { offset: at.across, most: ACROSS },
      cards: { offset: at.down, most: DOWN },
      pairs: { offset: at.at, most: PAIRS_A_PAGE },
    })
    const next = await uses.nextRuns()
    return page(
      c,
      { title: W.title, place: 'Runs', demo: options.demo, shopName: shop.name },
      <RunMap view={view} at={at} figures={figuresOf(shop)} next={next} />,
    )
  })
}
