import type { Context, Hono } from 'hono'
import { dayOf } from '../input/dates.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { SaleLine, SaleStock, SalesView } from '../uses/sellViews.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { Field, ProblemSummary, type Typed, typedOf } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { readForm } from './readForm.ts'
import { newSaleOf, sellLabel } from './sellForm.ts'
import { pathToSale } from './sellPaths.ts'
import { FromShelf, NotFromShelf } from './sellStock.tsx'

const w = SELL_EN

const Lines = ({ head, lines, figures }: { head: string; lines: readonly SaleLine[]; figures: Figures }) =>
  lines.length === 0 ? null : (
    <section class="card">
      <h2>{head}</h2>
      <ul class="ruled">
        {lines.map(({ tag, ownerName, next, handedAt, startedAt }) => (
          <li>
            <p class="line">
              <Tag tag={tag} /> <span class="soft">{ownerName ?? w.page.notKnown}</span>
              <a href={pathToSale(tag)}>
                {fill(w.page.head, { tag })}
                {next !== undefined && `: ${fill(w.nextIs, { step: w.steps[next].name })}`}
              </a>
              <small>
                {handedAt === undefined
                  ? figures.date(startedAt)
                  : fill(w.handedOn, { date: figures.date(handedAt) })}
              </small>
            </p>
          </li>
        ))}
      </ul>
    </section>
  )

type FormProps = {
  view: SalesView
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  isOld: boolean
}

/** Names of items and parts for the labels of problems. */
export const namesIn =
  ({ shelf }: SaleStock) =>
  (id: string): string =>
    shelf.find(({ item }) => item.id === id)?.part.name ?? id

const Who = ({ typed, problems }: FormProps) => (
  <fieldset>
    <legend>{w.form.sale}</legend>
    <div class="row">
      <Field
        name="tag"
        label={w.form.tag}
        hint={w.form.tagHint}
        typed={typed}
        problems={problems}
        required
        narrow
      />
      <Field name="soldOn" label={w.form.soldOn} type="date" typed={typed} problems={problems} narrow />
    </div>
    <div class="row">
      <Field
        name="priceMinor"
        label={w.form.price}
        hint={w.form.priceHint}
        inputmode="decimal"
        typed={typed}
        problems={problems}
        narrow
      />
      <Field
        name="otherCostMinor"
        label={w.form.otherCost}
        hint={w.form.otherCostHint}
        inputmode="decimal"
        typed={typed}
        problems={problems}
        narrow
      />
    </div>
    <div class="grid">
      <Field name="ownerName" label={w.form.ownerName} typed={typed} problems={problems} />
      <Field name="ownerEmail" label={w.form.ownerEmail} type="email" typed={typed} problems={problems} />
    </div>
    <Field name="note" label={w.form.note} rows={2} typed={typed} problems={problems} />
  </fieldset>
)

const SellForm = (props: FormProps) => {
  const { view, problems, isOld } = props
  return (
    <form method="post" action={isOld ? '/sell?old' : '/sell'} class="card form wide">
      <OnceKey />
      <h1>{isOld ? w.form.oldHead : w.form.head}</h1>
      <p>{isOld ? w.form.oldAbout : w.form.about}</p>
      <p>
        <a href={isOld ? '/sell' : '/sell?old'}>{isOld ? w.form.toNew : w.form.toOld}</a>
      </p>
      <ProblemSummary problems={problems} labels={(field) => sellLabel(field, namesIn(view))} />
      <div class="halves">
        <div>
          {!isOld && <FromShelf {...props} stock={view} />}
          <NotFromShelf {...props} stock={view} isOpen={isOld || view.shelf.length === 0} />
        </div>
        <div>
          <Who {...props} />
          <p class="actions">
            <button class="button" type="submit">
              {isOld ? w.form.saveOld : w.form.save}
            </button>
            <a href="/machines">{w.form.cancel}</a>
          </p>
          <p class="soft">{w.undoHint}</p>
        </div>
      </div>
    </form>
  )
}

/** Selling: sales on their way, and the form that makes a machine of parts. */
export function sellRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.sales()])
    const figures = figuresOf(shop)
    const isOld = c.req.query('old') !== undefined
    const fresh = new Map([
      ['tag', [view.nextTag]],
      ...(isOld ? [] : [['soldOn', [dayOf(uses.now(), shop.timeZone)]] as const]),
    ])
    const back = c.req.query('back')
    const first = problems[0]
    return page(
      c,
      { title: w.sell, place: 'Machines', demo: options.demo, shopName: shop.name },
      <>
        {back !== undefined && (
          <p class="kept" role="status">
            {fill(w.back.done, { tag: back })}
          </p>
        )}
        <Lines head={w.onTheirWay} lines={view.open} figures={figures} />
        <SellForm {...{ view, figures, problems, isOld }} typed={typed ?? fresh} />
        <Lines head={w.handedOver} lines={view.handed} figures={figures} />
        {(view.open.length > 0 || view.handed.length > 0) && (
          <p class="line card">
            <ExportLink table="sales" says={w.takeSales} />
            <span class="soft">{w.takeSalesNote}</span>
          </p>
        )}
      </>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/sell', (c) => show(c, undefined, []))

  app.post('/sell', async (c) => {
    const typed = typedOf(await readForm(c))
    const read = newSaleOf(typed, readingFor(await uses.shop()))
    const sold = read.ok ? await uses.sellMachine(read.value) : read
    if (!sold.ok) return show(c, typed, sold.problems)
    return c.redirect(`${pathToSale(sold.value.tag)}?made`, 303)
  })
}
