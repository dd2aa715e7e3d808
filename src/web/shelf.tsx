import type { Hono } from 'hono'
import { GAIN_KINDS } from '../core/ranking/shelf.ts'
import { daysSince } from '../input/dates.ts'
import type { FindableView } from '../uses/findable.ts'
import type { ShelfItemView } from '../uses/shelfItem.ts'
import type { ShelfList } from '../uses/views.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { couldBuyWords } from '../words/findable.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, param, pathTo, pathToPart, pathToShelfItem, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { askedOf, Find, listPath, Pages, pieceAt } from './pages.tsx'
import { type Clock, clockOf, isStale, PriceAge } from './priceAge.tsx'
import { problemPage } from './problem.tsx'
import { GoneList } from './questionMails.tsx'

const W = FINDABLE_EN

const ITEMS_A_PAGE = 50

type Line = ShelfList['lines'][number]

/** How many stand there, and for which jobs some of them are put aside. */
const Standing = ({ line: { standing, putAside }, figures }: { line: Line; figures: Figures }) => (
  <>
    {figures.number(standing)}
    {putAside.map(({ jobId, quantity }) => (
      <small class="block">
        {`${figures.number(quantity)} of ${figures.number(standing)} put aside for `}
        <a href={pathTo('jobs', jobId)}>{jobId}</a>
      </small>
    ))}
  </>
)

const Warranty = ({ item: { warrantyMonths, warrantyEndsWith } }: Line) =>
  warrantyMonths === undefined ? null : (
    <small class="block">
      {warrantyMonths} months warranty{warrantyEndsWith !== undefined && `, ends with: ${warrantyEndsWith}`}
    </small>
  )

const pathToItem = (id: string): string => `/shelf/${encodeURIComponent(id)}`

const Shelf = ({
  lines,
  here,
  figures,
  clock,
}: {
  lines: readonly Line[]
  /** The page that they stand on. */
  here: string
  figures: Figures
  clock: Clock
}) => (
  <table class="list">
    <thead>
      <tr>
        <th scope="col">Part</th>
        <th scope="col">Condition</th>
        <th scope="col" class="right">
          On the shelf
        </th>
        <th scope="col" class="right">
          Price
        </th>
        <th scope="col">Priced on</th>
      </tr>
    </thead>
    <tbody>
      {lines.map((line) => {
        const { item, part } = line
        return (
          <tr id={`item-${item.id}`}>
            <td>
              <b>
                <a href={pathToPart(part.id, `${here}#item-${encodeURIComponent(item.id)}`)}>{part.name}</a>
              </b>{' '}
              <small>
                {KIND_WORDS[part.kind]} <span class="num">{item.id}</span>
              </small>
              {item.note !== undefined && <small class="block">{item.note}</small>}
            </td>
            <td data-label="Condition">
              {item.condition}
              <Warranty {...line} />
            </td>
            <td class="right num" data-label="On the shelf">
              <Standing line={line} figures={figures} />
            </td>
            <td class="right num" data-label="Price">
              <a href={pathToItem(item.id)}>{figures.money(item.priceMinor)}</a>
            </td>
            <td data-label="Priced on">
              <PriceAge at={item.at} clock={clock} figures={figures} />
            </td>
          </tr>
        )
      })}
    </tbody>
  </table>
)

/** Not on the shelf: told apart, with what each was seen for. */
const CouldBuy = ({ view, figures, clock }: { view: FindableView; figures: Figures; clock: Clock }) => (
  <section class="card">
    <h2>{W.list.head}</h2>
    {view.lines.length > 0 && (
      <ul class="ruled">
        {view.lines.map(({ findable, part }) => (
          <li>
            <b>
              <a href={`/findable/${encodeURIComponent(findable.id)}`}>{part.name}</a>
            </b>{' '}
            {couldBuyWords(findable, daysSince(findable.at, clock.now, clock.timeZone), figures)}{' '}
            {isStale(findable.at, clock) && <span class="grade">{W.old}</span>}
          </li>
        ))}
      </ul>
    )}
    <p class="line">
      <a href="/findable">{W.list.head}</a>
      <a href="/hunt">{W.list.hunt}</a>
    </p>
  </section>
)

type PriceRow = { readonly at: string; readonly amountMinor: number }

/** Prices of one thing, the newest first. */
const Prices = ({ rows, figures, clock }: { rows: readonly PriceRow[]; figures: Figures; clock: Clock }) => (
  <table class="list">
    <thead>
      <tr>
        <th scope="col">Priced on</th>
        <th scope="col" class="right">
          Price
        </th>
      </tr>
    </thead>
    <tbody>
      {rows.toReversed().map(({ at, amountMinor }, i) => (
        <tr>
          <td data-label="Priced on">
            {i === 0 ? <PriceAge at={at} clock={clock} figures={figures} /> : figures.shortDate(at)}
          </td>
          <td class="right num" data-label="Price">
            {figures.money(amountMinor, true)}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
)

const Item = ({ view, figures, clock }: { view: ShelfItemView; figures: Figures; clock: Clock }) => {
  const { item, part, prices, tradeIns } = view
  const here = pathToItem(item.id)
  return (
    <article class="card">
      <p class="soft">
        {KIND_WORDS[part.kind]} <span class="num">{item.id}</span>
      </p>
      <h1>{fill(W.shelfItem.head, { item: part.name })}</h1>
      <p>
        {item.condition}, {figures.number(view.standing)} on the shelf
        <Warranty {...view} />
      </p>
      <h2>{W.shelfItem.history}</h2>
      <Prices
        rows={prices.map(({ at, priceMinor }) => ({ at, amountMinor: priceMinor }))}
        figures={figures}
        clock={clock}
      />
      <h2>{W.shelfItem.tradeIn}</h2>
      {tradeIns.length === 0 ? (
        <p class="soft">{W.shelfItem.noTradeIn}</p>
      ) : (
        <Prices
          rows={tradeIns.map(({ at, creditMinor }) => ({ at, amountMinor: creditMinor }))}
          figures={figures}
          clock={clock}
        />
      )}
      <p class="line">
        {GAIN_KINDS.has(part.kind) && (
          <>
            <a href={`/offers/price?of=${encodeURIComponent(item.id)}`}>{W.shelfItem.sells}</a>
            <a href={`/rounds?of=${encodeURIComponent(item.id)}#new`}>{ROUNDS_EN.offerIt}</a>
          </>
        )}
        <a href={pathToPart(part.id, here)}>{W.form.part}</a>
        <a href={pathToShelfItem(item.id)}>{W.shelfItem.all}</a>
      </p>
    </article>
  )
}

export function shelfRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  app.get('/shelf', async (c) => {
    const asked = askedOf(c)
    const { query } = asked
    // What is looked for parts the pages otherwise, so an item is found on a page of all.
    const itemId = query === '' ? c.req.query('item') : undefined
    const [shop, { lines, total, offset }, findable, gone] = await Promise.all([
      uses.shop(),
      uses.shelfList({ query, itemId, ...pieceAt(asked.page, ITEMS_A_PAGE) }),
      uses.findable(),
      uses.goneSince(),
    ])
    const clock = clockOf(shop, uses.now())
    const figures = figuresOf(shop)
    const at = offset / ITEMS_A_PAGE + 1
    const to = (n: number) => listPath('/shelf', { q: query, page: n })
    const body = (
      <>
        <div class="head">
          <h1>Shelf</h1>
          {total > 0 && <ExportLink table="shelf" />}
        </div>
        {(total > ITEMS_A_PAGE || query !== '') && (
          <Find action="/shelf" label="Part, kind or number" query={query} />
        )}
        {total === 0 && query !== '' ? (
          <p class="card empty">Nothing on the shelf matches “{query}”.</p>
        ) : total === 0 ? (
          <p class="card empty">
            The shelf is empty, so nothing can be ranked. <a href="/import">Import shelf.csv</a> with what you
            can sell today.
          </p>
        ) : (
          <section class="card">
            <Shelf lines={lines} here={to(at)} figures={figures} clock={clock} />
            <Pages of="the shelf" {...{ page: at, total, most: ITEMS_A_PAGE, to, figures }} />
          </section>
        )}
        <GoneList gone={gone} figures={figures} />
        <CouldBuy view={findable} figures={figures} clock={clock} />
      </>
    )
    return page(c, { title: 'Shelf', place: 'Shelf', demo: options.demo, shopName: shop.name }, body)
  })

  app.get('/shelf/:item', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.shelfItem(param(c, 'item'))])
    if (!view.ok) return problemPage(c, web, view.problems, 'Shelf')
    const title = fill(W.shelfItem.head, { item: view.value.part.name })
    return page(
      c,
      { title, place: 'Shelf', demo: options.demo, shopName: shop.name },
      <Item view={view.value} figures={figuresOf(shop)} clock={clockOf(shop, uses.now())} />,
    )
  })
}
