import type { Context, Hono } from 'hono'
import { isLeavable } from '../core/sale/steps.ts'
import { failed, type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { SaleView } from '../uses/sellViews.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { namesIn } from './sell.tsx'
import { morePartsOf, saleMoneyOf, sellLabel } from './sellForm.ts'
import { MoneyForm, Sums } from './sellMoney.tsx'
import { pathToSale } from './sellPaths.ts'
import { SaleSteps } from './sellSteps.tsx'
import { FromShelf, NotFromShelf } from './sellStock.tsx'

const w = SELL_EN
const plurals = new Intl.PluralRules('en')
const NONE: Typed = new Map()

type SaleProps = {
  view: SaleView
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  says?: string | undefined
}

/** Its parts, each with what it cost and the way back out. */
const Parts = ({ view: { sale, parts }, figures }: SaleProps) => (
  <ul class="ruled">
    {parts.map(({ id, part, itemId, costMinor }) => (
      <li>
        <p class="line">
          <b>{part.name}</b>
          <small>
            {KIND_WORDS[part.kind]},{' '}
            {itemId === undefined ? w.money.notFromShelf : fill(w.money.fromShelf, { item: itemId })}
          </small>
          <span class="num">
            {costMinor === undefined ? w.money.unknown : figures.money(costMinor, true)}
          </span>
        </p>
        {sale.handedAt === undefined && (
          <form
            method="post"
            action={`${pathToSale(sale.machineTag)}/parts/${encodeURIComponent(id)}/back`}
            class="act"
          >
            <button class="button quiet" type="submit">
              {itemId === undefined ? w.back.partOut : w.back.part}
              <span class="unseen">: {part.name}</span>
            </button>
          </form>
        )}
      </li>
    ))}
  </ul>
)

const SaleBody = (props: SaleProps) => {
  const { view, figures, says, problems } = props
  const { machineTag: tag, handedAt, madeMachine } = view.sale
  const general = problems.filter(({ field }) => !/^(?:cost\.|priceMinor|otherCostMinor)/.test(field))
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          <Tag tag={tag} />
          <span class="soft">
            {view.machine.owner?.name ?? w.page.notKnown}
            {view.machine.soldAt !== undefined && `, ${figures.date(view.machine.soldAt)}`}
          </span>
        </p>
        <h1>{fill(w.page.head, { tag })}</h1>
        {says !== undefined && (
          <p class="kept" role="status">
            {says}
          </p>
        )}
        {handedAt !== undefined && <p>{fill(w.page.done, { tag })}</p>}
        <ProblemSummary problems={general} labels={() => undefined} kept={w.page.kept} />
        <h2>{w.page.steps}</h2>
        <SaleSteps view={view} figures={figures} />
        <p class="actions">
          <a href="/sell">{w.page.all}</a>
          <a href={pathTo('machines', tag)}>{w.page.machine}</a>
        </p>
      </article>
      <aside class="card" aria-label={w.money.head}>
        <h2 class="over" id="money">
          {w.money.head}
        </h2>
        <Sums view={view} figures={figures} />
        <MoneyForm {...props} problems={problems.filter((problem) => !general.includes(problem))} />
        <h2 id="parts">{w.steps.parts.name}</h2>
        <Parts {...props} />
        {handedAt === undefined && madeMachine && (
          <>
            <h2>{w.back.head}</h2>
            <p class="soft">{fill(w.back.says, { tag })}</p>
            <form method="post" action={`${pathToSale(tag)}/take-back`}>
              <button class="button quiet" type="submit">
                {w.back.whole}
              </button>
            </form>
          </>
        )}
      </aside>
    </div>
  )
}

/** No sale of a machine that is written down: the same steps can be gone through for it. */
const NoSale = ({ tag }: { tag: string }) => (
  <article class="card slim">
    <p class="line">
      <Tag tag={tag} />
    </p>
    <h1>{fill(w.page.head, { tag })}</h1>
    <p>{fill(w.page.noSale, { tag })}</p>
    <form method="post" action={`${pathToSale(tag)}/start`} class="actions">
      <button class="button" type="submit">
        {fill(w.page.start, { tag })}
      </button>
      <a href="/sell">{w.page.all}</a>
    </form>
  </article>
)

const MoreParts = ({ view, figures, typed, problems }: SaleProps) => {
  const { stock, sale } = view
  return (
    <form method="post" action={`${pathToSale(sale.machineTag)}/parts`} class="card form wide">
      <OnceKey />
      <p class="line">
        <Tag tag={sale.machineTag} />
      </p>
      <h1>{w.steps.parts.act}</h1>
      <ProblemSummary problems={problems} labels={(field) => sellLabel(field, namesIn(stock))} />
      <FromShelf {...{ stock, figures, typed, problems }} />
      <NotFromShelf {...{ stock, figures, typed, problems }} isOpen={stock.shelf.length === 0} />
      <p class="actions">
        <button class="button" type="submit">
          {w.steps.parts.act}
        </button>
        <a href={pathToSale(sale.machineTag)}>{w.message.back}</a>
      </p>
    </form>
  )
}

/** What is said after a form, by its mark in the address. */
const saysOf = (c: Context, { sale }: SaleView, figures: Figures): string | undefined => {
  if (c.req.query('out') !== undefined) return w.back.partDone
  if (c.req.query('made') === undefined) return undefined
  const n = sale.parts.filter(({ itemId }) => itemId !== undefined).length
  const tag = sale.machineTag
  return n === 0
    ? fill(w.page.madeBare, { tag })
    : fill(formOf(w.page.made, n, plurals), { tag, n: figures.number(n) })
}

/** One sale: its steps, its money, and the ways back. */
export function sellPageRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  type Shown = { typed?: Typed; problems?: readonly Problem[]; isParts?: boolean }
  const show = async (c: Context, { typed = NONE, problems = [], isParts = false }: Shown = {}) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.sale(param(c, 'tag'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Machines')
    const { tag, view } = found.value
    const figures = figuresOf(shop)
    const title = fill(w.page.head, { tag })
    const frame = { title, place: 'Machines', demo: options.demo, shopName: shop.name } as const
    if (view === undefined) return page(c, frame, <NoSale tag={tag} />)
    const first = problems[0]
    const status = first === undefined ? 200 : STATUS_OF[first.code]
    const props = { view, figures, typed, problems, says: saysOf(c, view, figures) }
    return page(c, frame, isParts ? <MoreParts {...props} /> : <SaleBody {...props} />, status)
  }

  /** After a step: back to the sale, or the sale with what was wrong. */
  const after = (c: Context, result: Result<{ readonly tag: string }>, mark = '') => {
    if (result.ok) return c.redirect(`${pathToSale(result.value.tag)}${mark}`, 303)
    const isGone = result.problems.some(({ code }) => code === 'not found')
    return isGone ? problemPage(c, web, result.problems, 'Machines') : show(c, { problems: result.problems })
  }

  app.get('/sell/:tag', (c) => show(c))

  app.post('/sell/:tag/start', async (c) => after(c, await uses.startSale(param(c, 'tag'))))

  app.get('/sell/:tag/parts', (c) => show(c, { isParts: true }))

  app.post('/sell/:tag/parts', async (c) => {
    const typed = typedOf(await readForm(c))
    const read = morePartsOf(typed, readingFor(await uses.shop()))
    const added = read.ok ? await uses.addToSale(param(c, 'tag'), read.value) : read
    if (!added.ok) return show(c, { typed, problems: added.problems, isParts: true })
    return c.redirect(pathToSale(added.value.tag), 303)
  })

  app.post('/sell/:tag/parts/:part/back', async (c) =>
    after(c, await uses.putPartBack(param(c, 'tag'), param(c, 'part')), '?out'),
  )

  app.post('/sell/:tag/steps', async (c) => {
    const typed = typedOf(await readForm(c))
    const step = textOf(typed, 'step') ?? ''
    if (!isLeavable(step)) return after(c, failed(noStep(step)))
    return after(
      c,
      await uses.leaveOutStep(param(c, 'tag'), step, textOf(typed, 'do') !== 'take up'),
      `#step-${step}`,
    )
  })

  app.post('/sell/:tag/sheet', async (c) => after(c, await uses.sheetIsRight(param(c, 'tag'))))

  app.post('/sell/:tag/money', async (c) => {
    const typed = typedOf(await readForm(c))
    const found = await uses.sale(param(c, 'tag'))
    if (!found.ok || found.value.view === undefined) return show(c)
    const ids = found.value.view.sale.parts.map(({ id }) => id)
    const read = saleMoneyOf(typed, readingFor(await uses.shop()), ids)
    const kept = read.ok ? await uses.setSaleMoney(param(c, 'tag'), read.value) : read
    return kept.ok ? after(c, kept, '#money') : show(c, { typed, problems: kept.problems })
  })

  app.post('/sell/:tag/take-back', async (c) => {
    const taken = await uses.takeSaleBack(param(c, 'tag'))
    if (!taken.ok) return after(c, taken)
    return c.redirect(`/sell?back=${encodeURIComponent(taken.value.tag)}`, 303)
  })

  app.post('/sell/:tag/hand-over', async (c) => after(c, await uses.handOver(param(c, 'tag'))))

  app.post('/sell/:tag/not-handed-over', async (c) => after(c, await uses.takeHandingBack(param(c, 'tag'))))
}

const noStep = (got: string): Problem => ({
  ...{ code: 'not allowed', field: 'sale', got },
  next: 'This is no step that can be left out.',
})
