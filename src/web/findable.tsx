import type { Context, Hono } from 'hono'
import { PART_KINDS, type Part } from '../core/part.ts'
import { GAIN_KINDS } from '../core/ranking/shelf.ts'
import { CONDITIONS, type SeenPrice } from '../core/shop.ts'
import { date, line, lines, money, oneOf, whole } from '../input/cells.ts'
import { dayOf } from '../input/dates.ts'
import { majorText } from '../input/numbers.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { FindableEdit, FindableView, OneFindableView } from '../uses/findable.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { rangeWords } from '../words/findable.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { figuresOf, param, pathToPart, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { type Clock, clockOf, PriceAge } from './priceAge.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = FINDABLE_EN

export const pathToFindable = (id: string): string => `/findable/${encodeURIComponent(id)}`

const List = ({ view, figures, clock }: { view: FindableView; figures: Figures; clock: Clock }) => (
  <table class="list">
    <thead>
      <tr>
        <th scope="col">Part</th>
        <th scope="col">{W.form.condition}</th>
        <th scope="col" class="right">
          {W.form.lowMinor}
        </th>
        <th scope="col">{W.form.at}</th>
        <th scope="col">{W.form.place}</th>
      </tr>
    </thead>
    <tbody>
      {view.lines.map(({ findable, part }) => (
        <tr id={`findable-${findable.id}`}>
          <td>
            <b>
              <a href={pathToFindable(findable.id)}>{part.name}</a>
            </b>{' '}
            <small>
              {KIND_WORDS[part.kind]} <span class="num">{findable.id}</span>
            </small>
            {findable.note !== undefined && <small class="block">{findable.note}</small>}
          </td>
          <td data-label={W.form.condition}>
            {findable.condition}
            {findable.warrantyMonths !== undefined && findable.warrantyMonths > 0 && (
              <small class="block">{findable.warrantyMonths} months warranty</small>
            )}
          </td>
          <td class="right num" data-label={W.form.lowMinor}>
            {rangeWords(findable, figures)}
          </td>
          <td data-label={W.form.at}>
            <PriceAge at={findable.at} clock={clock} figures={figures} />
          </td>
          <td data-label={W.form.place}>{findable.place ?? '–'}</td>
        </tr>
      ))}
    </tbody>
  </table>
)

type FormProps = { typed: Typed; problems: readonly Problem[] }

const LABELS: Readonly<Record<string, string>> = W.form
const labelOf = (field: string): string | undefined => LABELS[field]

const KINDS = PART_KINDS.map((kind) => [kind, KIND_WORDS[kind]] as const)

const Fields = ({ parts, ...form }: FormProps & { parts: readonly Part[] }) => (
  <>
    <div class="grid">
      <Select {...form} name="kind" label={W.form.kind} choices={KINDS} />
      <Field
        {...form}
        name="partName"
        label={W.form.partName}
        hint={W.form.partNameHint}
        list="known-parts"
        required
      />
      <datalist id="known-parts">
        {parts.map(({ name }) => (
          <option value={name}></option>
        ))}
      </datalist>
      <Select
        {...form}
        name="condition"
        label={W.form.condition}
        choices={CONDITIONS.map((c) => [c, c] as const)}
      />
      <Field
        {...form}
        name="warrantyMonths"
        label={W.form.warrantyMonths}
        unit="months"
        inputmode="numeric"
        narrow
      />
    </div>
    <div class="grid">
      <Field {...form} name="lowMinor" label={W.form.lowMinor} inputmode="decimal" narrow required />
      <Field
        {...form}
        name="highMinor"
        label={W.form.highMinor}
        hint={W.form.highMinorHint}
        inputmode="decimal"
        narrow
      />
      <Field {...form} name="at" label={W.form.at} type="date" narrow required />
      <Field {...form} name="place" label={W.form.place} />
    </div>
    <Field {...form} name="note" label={W.form.note} rows={2} />
  </>
)

const New = ({ parts, ...form }: FormProps & { parts: readonly Part[] }) => (
  <article class="card form">
    <h1>{W.form.newHead}</h1>
    <ProblemSummary problems={form.problems} labels={labelOf} />
    <form method="post" action="/findable/new">
      <OnceKey />
      <Fields {...form} parts={parts} />
      <p class="does">
        <button class="button" type="submit">
          {W.form.save}
        </button>
        <a href="/findable">{W.form.all}</a>
      </p>
    </form>
  </article>
)

const Seen = ({ seen, figures }: { seen: readonly SeenPrice[]; figures: Figures }) => (
  <ul class="ruled">
    {seen.toReversed().map((range) => (
      <li>
        <span class="num">{rangeWords(range, figures)}</span>{' '}
        <span class="soft">{figures.shortDate(range.at)}</span>
      </li>
    ))}
  </ul>
)

type OneProps = FormProps & {
  view: OneFindableView
  parts: readonly Part[]
  figures: Figures
  saved: boolean
}

const One = ({ view, parts, figures, saved, ...form }: OneProps) => {
  const { findable, part, seen, removedAt } = view
  const here = pathToFindable(findable.id)
  return (
    <article class="card form">
      <p class="soft">
        {KIND_WORDS[part.kind]} <span class="num">{findable.id}</span>
      </p>
      <h1>{part.name}</h1>
      {saved && (
        <p class="done" role="status">
          <b>{W.form.saved}</b>
        </p>
      )}
      {removedAt !== undefined && (
        <p class="nothing" role="status">
          {fill(W.form.isOff, { date: figures.date(removedAt) })}
        </p>
      )}
      <ProblemSummary problems={form.problems} labels={labelOf} />
      <form method="post" action={here}>
        <Fields {...form} parts={parts} />
        <p class="does">
          <button class="button" type="submit">
            {W.form.save}
          </button>
          <a href={pathToPart(part.id, here)}>{W.form.part}</a>
          <a href="/findable">{W.form.all}</a>
        </p>
      </form>
      {removedAt === undefined && GAIN_KINDS.has(part.kind) && (
        <p class="line">
          <a href={`/rounds?of=${encodeURIComponent(findable.id)}#new`}>{ROUNDS_EN.askFirst}</a>
        </p>
      )}
      <form method="post" action={`${here}/${removedAt === undefined ? 'remove' : 'bring-back'}`}>
        <button class="button quiet" type="submit">
          {removedAt === undefined ? W.form.remove : W.list.bringBack}
        </button>
      </form>
      <h2>{W.form.seenHead}</h2>
      <Seen seen={seen} figures={figures} />
    </article>
  )
}

export function findableRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = (title: string, shopName: string) =>
    ({ title, place: 'Shelf', demo: options.demo, shopName }) as const
  const status = (problems: readonly Problem[]) =>
    problems[0] === undefined ? 200 : STATUS_OF[problems[0].code]

  app.get('/findable', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.findable()])
    const removed = c.req.query('removed')
    const back = c.req.query('back')
    return page(
      c,
      frame(W.list.head, shop.name),
      <>
        <div class="head">
          <h1>{W.list.head}</h1>
          <p class="line">
            {view.lines.length > 0 && <ExportLink table="findable" />}
            <a class="button" href="/findable/new">
              {W.list.add}
            </a>
            <a class="button quiet" href="/hunt">
              {W.list.hunt}
            </a>
          </p>
        </div>
        {removed !== undefined && (
          <form method="post" action={`${pathToFindable(removed)}/bring-back`} class="done" role="status">
            {fill(W.list.removed, { id: removed })}{' '}
            <button class="button quiet" type="submit">
              {W.list.bringBack}
            </button>
          </form>
        )}
        {back !== undefined && (
          <p class="done" role="status">
            {fill(W.list.backAgain, { id: back })}
          </p>
        )}
        {view.lines.length === 0 ? (
          <p class="card empty">{W.list.empty}</p>
        ) : (
          <section class="card">
            <p class="hint">{W.list.about}</p>
            <List view={view} figures={figuresOf(shop)} clock={clockOf(shop, uses.now())} />
          </section>
        )}
      </>,
    )
  })

  /** What the form says, or what is wrong with it. */
  const editFrom = async (typed: Typed) => {
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const kind = reader.need('kind', oneOf(PART_KINDS), 'Say what it is.')
    const partName = reader.need('partName', line(), 'Write maker and model, or the key of a part you know.')
    const condition = reader.need('condition', oneOf(CONDITIONS), 'Say in which condition it is.')
    const lowMinor = reader.need('lowMinor', money, 'Say what it was seen for.')
    const highMinor = reader.read('highMinor', money) ?? lowMinor
    const at = reader.need('at', date, 'Say when it was seen.')
    const warrantyMonths = reader.read('warrantyMonths', whole(0, 240, 'months'))
    const place = reader.read('place', line())
    const note = reader.read('note', lines())
    if (
      kind === undefined ||
      partName === undefined ||
      condition === undefined ||
      lowMinor === undefined ||
      highMinor === undefined ||
      at === undefined ||
      reader.problems.length > 0
    )
      return { problems: reader.problems }
    const edit: Omit<FindableEdit, 'id'> = {
      ...{ kind, partName, condition, lowMinor, highMinor, at, warrantyMonths, place, note },
    }
    return { problems: [], edit }
  }

  const showNew = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    return page(
      c,
      frame(W.form.newHead, shop.name),
      <New parts={known.parts} typed={typed} problems={problems} />,
      status(problems),
    )
  }
  app.get('/findable/new', async (c) => {
    const { timeZone } = await uses.shop()
    const part = c.req.query('part')
    const typed = new Map([
      ['at', [dayOf(uses.now(), timeZone)]],
      ['condition', ['used untested']],
    ])
    return showNew(c, part === undefined ? typed : typed.set('partName', [part]), [])
  })
  app.post('/findable/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const { edit, problems } = await editFrom(typed)
    if (edit === undefined) return showNew(c, typed, problems)
    const saved = await uses.saveFindable(edit)
    if (!saved.ok) return showNew(c, typed, saved.problems)
    return c.redirect(`${pathToFindable(saved.value.id)}?saved=1`, 303)
  })

  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, view, known] = await Promise.all([
      uses.shop(),
      uses.oneFindable(param(c, 'id')),
      uses.known(),
    ])
    if (!view.ok) return problemPage(c, web, view.problems, 'Shelf')
    const figures = figuresOf(shop)
    return page(
      c,
      frame(view.value.part.name, shop.name),
      <One
        view={view.value}
        parts={known.parts}
        figures={figures}
        typed={typed ?? typedFrom(view.value, figures.minorDigits, shop.timeZone)}
        problems={problems}
        saved={c.req.query('saved') !== undefined}
      />,
      status(problems),
    )
  }
  app.get('/findable/:id', (c) => show(c, undefined, []))
  app.post('/findable/:id', async (c) => {
    const typed = typedOf(await readForm(c))
    const { edit, problems } = await editFrom(typed)
    if (edit === undefined) return show(c, typed, problems)
    const saved = await uses.saveFindable({ ...edit, id: param(c, 'id') })
    if (!saved.ok) return show(c, typed, saved.problems)
    return c.redirect(`${pathToFindable(saved.value.id)}?saved=1`, 303)
  })
  app.post('/findable/:id/remove', async (c) => {
    const removed = await uses.removeFindable(param(c, 'id'))
    if (!removed.ok) return problemPage(c, web, removed.problems, 'Shelf')
    return c.redirect(`/findable?removed=${encodeURIComponent(removed.value.id)}`, 303)
  })
  app.post('/findable/:id/bring-back', async (c) => {
    const back = await uses.bringBackFindable(param(c, 'id'))
    if (!back.ok) return problemPage(c, web, back.problems, 'Shelf')
    return c.redirect(`/findable?back=${encodeURIComponent(back.value.id)}`, 303)
  })
}

/** What stands in the form before anything was typed. */
function typedFrom({ findable, part }: OneFindableView, digits: number, timeZone: string): Typed {
  const { condition, lowMinor, highMinor, at, warrantyMonths, place = '', note = '' } = findable
  const fields = {
    ...{ kind: part.kind, partName: part.name, condition, place, note, at: dayOf(at, timeZone) },
    lowMinor: majorText(lowMinor, digits),
    highMinor: highMinor === lowMinor ? '' : majorText(highMinor, digits),
    warrantyMonths: warrantyMonths === undefined ? '' : String(warrantyMonths),
  }
  return new Map(Object.entries(fields).map(([name, value]) => [name, [value]]))
}
