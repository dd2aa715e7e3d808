import type { Hono } from 'hono'
import type { ShelfView } from '../uses/views.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, pathTo, pathToPart, type Web } from './frame.ts'
import { page } from './layout.tsx'

type Line = ShelfView['items'][number]

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

const Shelf = ({ view, figures }: { view: ShelfView; figures: Figures }) => (
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
      {view.items.map((line) => {
        const { item, part } = line
        return (
          <tr id={`item-${item.id}`}>
            <td>
              <b>
                <a href={pathToPart(part.id, `/shelf#item-${encodeURIComponent(item.id)}`)}>{part.name}</a>
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
              {figures.money(item.priceMinor)}
            </td>
            <td data-label="Priced on">{figures.shortDate(item.at)}</td>
          </tr>
        )
      })}
    </tbody>
  </table>
)

export function shelfRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/shelf', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.shelf()])
    const body = (
      <>
        <div class="head">
          <h1>Shelf</h1>
          {view.items.length > 0 && <ExportLink table="shelf" />}
        </div>
        {view.items.length === 0 ? (
          <p class="card empty">
            The shelf is empty, so nothing can be ranked. <a href="/import">Import shelf.csv</a> with what you
            can sell today.
          </p>
        ) : (
          <section class="card">
            <Shelf view={view} figures={figuresOf(shop)} />
          </section>
        )}
      </>
    )
    return page(c, { title: 'Shelf', place: 'Shelf', demo: options.demo, shopName: shop.name }, body)
  })
}
