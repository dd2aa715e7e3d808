import type { Context, Hono } from 'hono'
import { partFromWords } from '../core/naming/partFromWords.ts'
import { PART_KINDS, type Part, type PartKind } from '../core/part.ts'
import type { ShelfItem } from '../core/shop.ts'
import { failed, ok, type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { PartsToPut, PartToPut } from '../uses/shelfEdits.ts'
import { SHELF_EN } from '../words/en/shelf.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, pathToPart, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { describedPart, partLabel, typedFromPart } from './partForm.ts'
import { FiguresFields } from './parts.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { type FormProps, ItemFieldsOf, itemFrom, itemLabel } from './shelfForm.tsx'
import { pathToItem } from './shelfShown.tsx'

const W = SHELF_EN

const KINDS = PART_KINDS.map((kind) => [kind, KIND_WORDS[kind]] as const)
const isKind = (text: string | undefined): text is PartKind => PART_KINDS.some((kind) => kind === text)

const Found = ({ found, query, figures }: { found: PartsToPut; query: string; figures: Figures }) =>
  found.lines.length === 0 ? (
    <p class="nothing" role="status">
      {fill(W.choose.none, { query })}
    </p>
  ) : (
    <>
      <h2 role="status">
        {fill(formOf(W.choose.found, found.total, new Intl.PluralRules('en')), {
          n: figures.number(found.total),
        })}
      </h2>
      <ul class="ruled">
        {found.lines.map(({ part, shelf }) => (
          <li>
            <b>
              <a href={`/shelf/new?part=${encodeURIComponent(part.id)}`}>{part.name}</a>
            </b>{' '}
            <small>
              {KIND_WORDS[part.kind]} <span class="num">{part.id}</span>
            </small>
            {shelf.length > 0 && (
              <small class="block">
                {fill(W.choose.onShelf, {
                  n: figures.number(shelf.reduce((sum, line) => sum + line.standing, 0)),
                })}
              </small>
            )}
          </li>
        ))}
      </ul>
      {found.total > found.lines.length && (
        <p class="hint">{fill(W.choose.more, { n: figures.number(found.lines.length) })}</p>
      )}
    </>
  )

type ChooseProps = FormProps & { query: string; found: PartsToPut; figures: Figures }

/** Which part: one on record by its words, or a new one by its kind. */
const Choose = ({ query, found, figures, ...form }: ChooseProps) => (
  <article class="card form">
    <h1>{W.choose.head}</h1>
    <ProblemSummary problems={form.problems} labels={itemLabel} />
    <form method="get" action="/shelf/new">
      <Field
        name="q"
        label={W.choose.seek}
        hint={W.choose.seekHint}
        typed={new Map([['q', [query]]])}
        problems={[]}
      />
      <p class="actions">
        <button class="button" type="submit">
          {W.choose.seekDo}
        </button>
        <a href="/shelf">All of the shelf</a>
      </p>
    </form>
    {query !== '' && <Found {...{ found, query, figures }} />}
    <details class="fold" open={(query !== '' && found.total === 0) || form.problems.length > 0}>
      <summary>{W.choose.newHead}</summary>
      <p class="hint">{W.choose.newHint}</p>
      <form method="get" action="/shelf/new">
        <div class="grid">
          <Select {...form} name="kind" label={W.form.kind} choices={KINDS} />
          <Field {...form} name="name" label={W.choose.newName} required />
        </div>
        <p class="actions">
          <button class="button" type="submit">
            {W.choose.newDo}
          </button>
        </p>
      </form>
    </details>
  </article>
)

const Alike = ({ shelf, figures }: { shelf: readonly ShelfItem[]; figures: Figures }) =>
  shelf.length === 0 ? null : (
    <div class="nothing" role="note">
      <p>
        <b>{W.form.alike}.</b> {W.form.alikeHint}
      </p>
      <ul>
        {shelf.map((item) => (
          <li>
            <a href={pathToItem(item.id)}>{item.id}</a>: {figures.number(item.quantity)}, {item.condition},{' '}
            {figures.money(item.priceMinor)}
          </li>
        ))}
      </ul>
    </div>
  )

/** The part that is put there; a new one with the figures of its kind. */
type Chosen = { readonly part: Part; readonly isNew: boolean; readonly shelf: readonly ShelfItem[] }

const Put = ({ chosen, figures, ...form }: FormProps & { chosen: Chosen; figures: Figures }) => {
  const { part, isNew, shelf } = chosen
  const labels = (field: string) => itemLabel(field) ?? partLabel(part.kind, field)
  const called = isNew ? (textOf(form.typed, 'name') ?? KIND_WORDS[part.kind]) : part.name
  const hasFigureProblem = form.problems.some(({ field }) => field.startsWith('figure.'))
  return (
    <article class="card form">
      <p class="soft">
        {isNew ? fill(W.form.newPart, { kind: KIND_WORDS[part.kind] }) : KIND_WORDS[part.kind]}{' '}
        {!isNew && <span class="num">{part.id}</span>}
      </p>
      <h1>{fill(W.form.head, { part: called })}</h1>
      <ProblemSummary problems={form.problems} labels={labels} />
      <Alike shelf={shelf} figures={figures} />
      <form method="post" action="/shelf/new">
        <OnceKey />
        {isNew ? (
          <>
            <input type="hidden" name="kind" value={part.kind} />
            <Field {...form} name="name" label={W.form.name} required />
          </>
        ) : (
          <input type="hidden" name="part" value={part.id} />
        )}
        <ItemFieldsOf {...form} atHint={W.form.atNew} />
        {isNew && (
          <details class="fold" open={hasFigureProblem || part.readFromName !== undefined}>
            <summary>{W.form.figures}</summary>
            <FiguresFields part={part} {...form} note={W.form.figuresNote} />
          </details>
        )}
        <p class="actions">
          <button class="button" type="submit">
            {W.form.put}
          </button>
          {isNew ? (
            <a href="/shelf/new">{W.form.other}</a>
          ) : (
            <>
              <a href="/shelf/new">{W.form.other}</a>
              <a href={pathToPart(part.id, `/shelf/new?part=${encodeURIComponent(part.id)}`)}>
                {W.form.figures}
              </a>
            </>
          )}
        </p>
      </form>
    </article>
  )
}

/** Putting an item on the shelf: first which part, then how many and for what. */
export function shelfNewRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = (title: string, shopName: string) =>
    ({ title, place: 'Shelf', demo: options.demo, shopName }) as const
  const status = (problems: readonly Problem[]) =>
    problems[0] === undefined ? 200 : STATUS_OF[problems[0].code]

  const choose = async (c: Context, query: string, form: FormProps) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.partsToPut(query)])
    return page(
      c,
      frame(W.choose.head, shop.name),
      <Choose {...form} {...{ query, found }} figures={figuresOf(shop)} />,
      status(form.problems),
    )
  }

  const put = async (c: Context, chosen: Chosen, form: FormProps) => {
    const shop = await uses.shop()
    return page(
      c,
      frame(W.choose.head, shop.name),
      <Put {...form} chosen={chosen} figures={figuresOf(shop)} />,
      status(form.problems),
    )
  }

  /** The part that a form or an address names: one on record, or a new one with what its name tells. */
  const chosenBy = async (typed: Typed): Promise<Result<Chosen>> => {
    const partId = textOf(typed, 'part')
    if (partId !== undefined) {
      const known = await uses.part(partId)
      if (!known.ok) return known
      const { part, shelf } = known.value
      return ok({ part, isNew: false, shelf })
    }
    const kind = textOf(typed, 'kind')
    if (!isKind(kind)) {
      const got = kind === undefined ? {} : { got: kind }
      return failed({ code: 'missing', field: 'kind', ...got, next: W.kindNeeded })
    }
    const { part } = partFromWords(kind, 'NEW', textOf(typed, 'name') ?? '')
    return ok({ part, isNew: true, shelf: [] })
  }

  app.get('/shelf/new', async (c) => {
    const query = c.req.query('q')?.trim() ?? ''
    const asked = ['part', 'kind', 'name'].flatMap((name): [string, string[]][] => {
      const text = c.req.query(name)
      return text === undefined ? [] : [[name, [text]]]
    })
    const typed: Typed = new Map(asked)
    if (asked.length === 0) return choose(c, query, { typed: new Map([['name', [query]]]), problems: [] })
    const chosen = await chosenBy(typed)
    if (!chosen.ok)
      return typed.has('part')
        ? problemPage(c, web, chosen.problems, 'Shelf')
        : choose(c, query, { typed, problems: chosen.problems })
    if (chosen.value.isNew && textOf(typed, 'name') === undefined)
      return choose(c, query, {
        typed,
        problems: [{ code: 'missing', field: 'name', next: W.nameNeeded }],
      })
    const { part, isNew } = chosen.value
    return put(c, chosen.value, {
      typed: new Map([...(isNew ? typedFromPart(part) : []), ['quantity', ['1']]]),
      problems: [],
    })
  })

  app.post('/shelf/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const chosen = await chosenBy(typed)
    if (!chosen.ok) return choose(c, '', { typed, problems: chosen.problems })
    const { part, isNew } = chosen.value
    const reading = readingFor(await uses.shop())
    const item = itemFrom(typed, reading)
    const described = isNew ? describedPart(part, typed, reading) : ok(part)
    if (!item.ok || !described.ok) {
      const problems = [...(item.ok ? [] : item.problems), ...(described.ok ? [] : described.problems)]
      return put(c, chosen.value, { typed, problems })
    }
    const toPut: PartToPut = isNew ? { newPart: described.value } : { partId: part.id }
    const done = await uses.putOnShelf(toPut, item.value)
    if (!done.ok) return put(c, chosen.value, { typed, problems: done.problems })
    const { id, editId = '' } = done.value
    return c.redirect(`${pathToItem(id)}?did=put&edit=${encodeURIComponent(editId)}`, 303)
  })
}
