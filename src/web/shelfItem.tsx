import type { Context, Hono } from 'hono'
import { GAIN_KINDS } from '../core/ranking/shelf.ts'
import { changedFields, type ItemField } from '../core/shelfEdit.ts'
import type { ShelfItem } from '../core/shop.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { ItemEdit, ShelfItemView } from '../uses/shelfItem.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { SHELF_EN } from '../words/en/shelf.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, pathToPart, pathToShelfItem, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { figureLabel, figuresOfKind } from './partForm.ts'
import { type Clock, clockOf, PriceAge } from './priceAge.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import {
  type FormProps,
  ItemFieldsOf,
  itemFrom,
  itemLabel,
  OffFields,
  offFrom,
  typedFromItem,
} from './shelfForm.tsx'
import { Prices, pathToItem, Undo, Warranty } from './shelfShown.tsx'

const W = SHELF_EN.item
const P = FINDABLE_EN.shelfItem

const DID = ['put', 'changed', 'off', 'undone', 'same'] as const
type Did = (typeof DID)[number]
const isDid = (text: string | undefined): text is Did => DID.some((did) => did === text)

type Shown = { readonly view: ShelfItemView; readonly figures: Figures; readonly clock: Clock }

/** A field's value as the history says it. */
function valueText(field: ItemField, item: ShelfItem, figures: Figures): string {
  const value = item[field]
  if (value === undefined) return W.none
  if (field === 'priceMinor') return figures.money(item.priceMinor, true)
  if (field === 'at') return figures.shortDate(item.at)
  return typeof value === 'number' ? figures.number(value) : value
}

function editText({ before, after, because }: ItemEdit, figures: Figures): string {
  const off = [before.removedAt, after.removedAt].map((at) => at !== undefined)
  const isSame = changedFields(before.item, after.item).every((field) => field === 'quantity')
  if (off[0] && !off[1] && before.item.quantity === 0 && isSame && because === undefined) return W.wasBack
  const rows = changedFields(before.item, after.item).map((field) =>
    fill(W.from, {
      field: SHELF_EN.fields[field],
      before: valueText(field, before.item, figures),
      after: valueText(field, after.item, figures),
    }),
  )
  const why = because === undefined ? [] : [SHELF_EN.because[because]]
  return [...(off[1] ? [W.wasOff] : []), ...why, ...rows].join('; ')
}

/** What people changed, the newest first; each can be taken back where nothing came over it. */
const History = ({ view: { item, edits, removedAt }, figures }: Shown) =>
  edits.length === 0 ? null : (
    <>
      <h2>{W.historyHead}</h2>
      <ul class="ruled">
        {edits.toReversed().map((edit, i) => (
          <li>
            <span class="soft">{figures.shortDate(edit.at)}</span>{' '}
            {i === edits.length - 1 && edit.before.removedAt === edit.at ? W.wasPut : editText(edit, figures)}
            {removedAt === undefined && <Undo id={item.id} edit={edit.id} words={W.undoThis} />}
          </li>
        ))}
      </ul>
    </>
  )

const SHOWN_MISSING = 6

/** What nobody knows of the part: until then questions cannot tell. */
const Missing = ({ view: { item, part } }: Shown) => {
  const known: Readonly<Record<string, unknown>> = part
  const missing = figuresOfKind(part.kind).filter(({ field }) => known[field] === undefined)
  if (missing.length === 0) return null
  const names = missing.slice(0, SHOWN_MISSING).map(({ field }) => figureLabel(field))
  const rest = missing.length - names.length
  const figures =
    rest > 0 ? fill(W.missingMore, { figures: names.join(', '), n: String(rest) }) : names.join(', ')
  return (
    <p class="hint">
      {fill(W.missing, { figures })} <a href={pathToPart(part.id, pathToItem(item.id))}>{W.fillIn}</a>
    </p>
  )
}

/** What stands there, beside what somebody typed meanwhile. */
const Now = ({ view: { item, standing }, figures }: Shown) => (
  <section class="kept">
    <p>
      <b>{W.nowHead}:</b> {figures.number(standing)}, {item.condition}, {figures.money(item.priceMinor, true)}
      <Warranty item={item} />
      {item.note !== undefined && <small class="block">{item.note}</small>}
    </p>
  </section>
)

const Standing = ({ view, figures, clock }: Shown) => {
  const { item, standing, putAside } = view
  return (
    <p>
      {figures.number(standing)} on the shelf, {item.condition},{' '}
      <span class="num">{figures.money(item.priceMinor, true)}</span> {W.priced}{' '}
      <PriceAge at={item.at} clock={clock} figures={figures} />
      <Warranty item={item} />
      {putAside.map(({ jobId, quantity }) => (
        <small class="block">
          {figures.number(quantity)} put aside for <a href={pathTo('jobs', jobId)}>{jobId}</a>
        </small>
      ))}
    </p>
  )
}

const Off = ({ view, figures, ...form }: Shown & FormProps) => {
  const { item, standing, putAside } = view
  const jobs = [...new Set(putAside.map(({ jobId }) => jobId))].join(', ')
  const isWrong = form.problems.some(({ field }) => field === 'pieces' || field === 'because')
  return (
    <details class="fold" open={isWrong}>
      <summary>{W.offHead}</summary>
      {item.quantity === 0 && standing > 0 ? (
        <p class="nothing">{fill(W.allHeld, { jobs })}</p>
      ) : (
        <form method="post" action={`${pathToItem(item.id)}/off`}>
          <input type="hidden" name="seen" value={view.mark} />
          <p class="hint">{W.offHint}</p>
          {putAside.length > 0 && <p class="hint">{fill(W.held, { held: jobs })}</p>}
          <OffFields {...form} />
          <p class="actions">
            <button class="button quiet" type="submit">
              {W.offDo}
            </button>
          </p>
        </form>
      )}
    </details>
  )
}

/** Off the shelf: what it was, and the way back. */
const Gone = ({ view, figures }: Shown) => {
  const last = view.edits.at(-1)
  const because = last?.because
  const date = figures.date(view.removedAt ?? '')
  return (
    <section class="kept" role="status">
      <p>
        {because === undefined
          ? fill(W.isOffBare, { date })
          : fill(W.isOff, { date, because: SHELF_EN.because[because] })}
      </p>
      {last !== undefined && <Undo id={view.item.id} edit={last.id} words={W.putBack} />}
    </section>
  )
}

type ItemProps = Shown &
  FormProps & { off: Typed; did: Did | undefined; edit: string | undefined; isConflict: boolean }

const Item = (props: ItemProps) => {
  const { view, figures, clock, typed, problems, did, edit } = props
  const shown = { view, figures, clock }
  const { item, part, prices, tradeIns, removedAt } = view
  const here = pathToItem(item.id)
  const date = figures.shortDate(item.at)
  return (
    <article class="card form">
      <p class="soft">
        {KIND_WORDS[part.kind]} <span class="num">{item.id}</span>
      </p>
      <h1>{part.name}</h1>
      {did !== undefined && (
        <div class="done" role="status">
          <p>
            <b>{SHELF_EN.did[did]}</b>
          </p>
          {edit !== undefined && edit !== '' && <Undo id={item.id} edit={edit} />}
        </div>
      )}
      <ProblemSummary problems={problems} labels={itemLabel} />
      {removedAt !== undefined ? (
        <Gone {...shown} />
      ) : (
        <>
          {props.isConflict ? <Now {...shown} /> : <Standing {...shown} />}
          <Missing {...shown} />
          <h2>{W.changeHead}</h2>
          <form method="post" action={here}>
            <input type="hidden" name="seen" value={view.mark} />
            <ItemFieldsOf {...{ typed, problems }} atHint={fill(SHELF_EN.form.atHint, { date })} />
            <p class="actions">
              <button class="button" type="submit">
                {SHELF_EN.form.save}
              </button>
              <a href={pathToShelfItem(item.id)}>{P.all}</a>
            </p>
          </form>
          <Off {...shown} typed={props.off} problems={problems} />
        </>
      )}
      <p class="line">
        {removedAt === undefined && GAIN_KINDS.has(part.kind) && (
          <>
            <a href={`/offers/price?of=${encodeURIComponent(item.id)}`}>{P.sells}</a>
            <a href={`/rounds?of=${encodeURIComponent(item.id)}#new`}>{ROUNDS_EN.offerIt}</a>
          </>
        )}
        <a href={pathToPart(part.id, here)}>{FINDABLE_EN.form.part}</a>
        {removedAt !== undefined && <a href="/shelf">{P.all}</a>}
      </p>
      <h2>{P.history}</h2>
      <Prices
        rows={prices.map(({ at, priceMinor }) => ({ at, amountMinor: priceMinor }))}
        {...{ figures, clock }}
      />
      <h2>{P.tradeIn}</h2>
      {tradeIns.length === 0 ? (
        <p class="soft">{P.noTradeIn}</p>
      ) : (
        <Prices
          rows={tradeIns.map(({ at, creditMinor }) => ({ at, amountMinor: creditMinor }))}
          {...{ figures, clock }}
        />
      )}
      <History {...shown} />
    </article>
  )
}

/** One item of the shelf: its prices, and everything that a person changes of it. */
export function shelfItemRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Given = {
    typed?: Typed
    off?: Typed
    problems: readonly Problem[]
    did?: Did
    edit?: string | undefined
  }

  const show = async (c: Context, { typed, off, problems, did, edit }: Given) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.shelfItem(param(c, 'item'))])
    if (!view.ok) return problemPage(c, web, view.problems, 'Shelf')
    const { item, standing, part } = view.value
    const first = problems[0]
    return page(
      c,
      { title: `${item.id}: ${part.name}`, place: 'Shelf', demo: options.demo, shopName: shop.name },
      <Item
        view={view.value}
        figures={figuresOf(shop)}
        clock={clockOf(shop, uses.now())}
        typed={typed ?? typedFromItem(item, standing, readingFor(shop))}
        off={off ?? new Map([['pieces', ['1']]])}
        isConflict={problems.some(({ code, field }) => code === 'conflict' && field === 'item')}
        {...{ problems, did, edit }}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }
  const to = (c: Context, id: string, did: Did, editId: string | undefined, isOff: boolean | undefined) => {
    const edit = editId === undefined ? '' : `&edit=${encodeURIComponent(editId)}`
    return c.redirect(
      isOff ? `/shelf?off=${encodeURIComponent(id)}${edit}` : `${pathToItem(id)}?did=${did}${edit}`,
      303,
    )
  }

  app.get('/shelf/:item', (c) => {
    const did = c.req.query('did')
    return show(c, { problems: [], edit: c.req.query('edit'), ...(isDid(did) && { did }) })
  })

  app.post('/shelf/:item', async (c) => {
    const typed = typedOf(await readForm(c))
    const item = itemFrom(typed, readingFor(await uses.shop()))
    if (!item.ok) return show(c, { typed, problems: item.problems })
    const change = { typed: item.value, seen: textOf(typed, 'seen') }
    const done = await uses.changeShelfItem(param(c, 'item'), change)
    if (!done.ok) return show(c, { typed, problems: done.problems })
    const { id, editId } = done.value
    return to(c, id, editId === undefined ? 'same' : 'changed', editId, false)
  })

  app.post('/shelf/:item/off', async (c) => {
    const off = typedOf(await readForm(c))
    const read = offFrom(off, readingFor(await uses.shop()))
    if (!read.ok) return show(c, { off, problems: read.problems })
    const done = await uses.takeOffShelf(param(c, 'item'), { ...read.value, seen: textOf(off, 'seen') })
    if (!done.ok) return show(c, { off, problems: done.problems })
    return to(c, done.value.id, 'off', done.value.editId, done.value.isOff)
  })

  app.post('/shelf/:item/undo', async (c) => {
    const edit = textOf(typedOf(await readForm(c)), 'edit') ?? ''
    const done = await uses.undoShelfEdit(param(c, 'item'), edit)
    if (!done.ok) return show(c, { problems: done.problems })
    return to(c, done.value.id, 'undone', done.value.editId, done.value.isOff)
  })
}
