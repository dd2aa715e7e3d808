import type { Hono } from 'hono'
import { daysSince } from '../input/dates.ts'
import type { FindableView } from '../uses/findable.ts'
import type { ShelfList } from '../uses/views.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import { SHELF_EN } from '../words/en/shelf.ts'
import type { Figures } from '../words/figures.ts'
import { couldBuyWords } from '../words/findable.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, pathTo, pathToPart, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { askedOf, Find, listPath, Pages, pieceAt } from './pages.tsx'
import { type Clock, clockOf, isStale, PriceAge } from './priceAge.tsx'
import { GoneList } from './questionMails.tsx'
import { pathToItem, Undo, Warranty } from './shelfShown.tsx'

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
        <th scope="col">
          <span class="unseen">{SHELF_EN.change}</span>
        </th>
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
            <td>
              <a href={pathToItem(item.id)} aria-label={`${SHELF_EN.change}: ${part.name}, ${item.id}`}>
                {SHELF_EN.change}
              </a>
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
    const [off, edit] = [c.req.query('off'), c.req.query('edit')]
    const clock = clockOf(shop, uses.now())
    const figures = figuresOf(shop)
    const at = offset / ITEMS_A_PAGE + 1
    const to = (n: number) => listPath('/shelf', { q: query, page: n })
    const body = (
      <>
        <div class="head">
          <h1>Shelf</h1>
          <p class="line">
            {total > 0 && <ExportLink table="shelf" />}
            <a class="button" href="/shelf/new">
              {SHELF_EN.put}
            </a>
          </p>
        </div>
        {off !== undefined && edit !== undefined && (
          <div class="done" role="status">
            <p>
              <b>{fill(SHELF_EN.offNow, { item: off })}</b> {SHELF_EN.did.off}
            </p>
            <Undo id={off} edit={edit} />
          </div>
        )}
        {(total > ITEMS_A_PAGE || query !== '') && (
          <Find action="/shelf" label="Part, kind or number" query={query} />
        )}
        {total === 0 && query !== '' ? (
          <p class="card empty">Nothing on the shelf matches “{query}”.</p>
        ) : total === 0 ? (
          <p class="card empty">
            {SHELF_EN.empty} <a href="/shelf/new">{SHELF_EN.put}</a> <a href="/import">{SHELF_EN.importIt}</a>
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
}
