import type { Context, Hono } from 'hono'
import type { Part } from '../core/part.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { PartView } from '../uses/views.ts'
import { PART_EN } from '../words/en/parts.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import {
  figuresOf,
  param,
  pathTo,
  pathToPart,
  pathToShelfItem,
  readingFor,
  type Web,
  wayBack,
} from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { listPath } from './pages.tsx'
import { describedPart, figuresOfKind, type PartFigure, partLabel, typedFromPart } from './partForm.ts'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

const YES_NO = [
  ['', 'not known'],
  ['yes', 'yes'],
  ['no', 'no'],
] as const

/** Where a way back leads, in words. */
function backText(from: string): string {
  const [, place, key] = /^\/(\w+)(?:\/([^/?#]+))?/.exec(from) ?? []
  if (place === 'machines' && key !== undefined) return `Back to machine ${decodedKey(key)}`
  if (place === 'questions' && key !== undefined) return 'Back to the question'
  if (place === 'answers') return 'Back to the answer'
  if (place === 'shelf' || place === 'runs') return `Back to the ${place}`
  return 'Back to where you were'
}

/** A key out of an address; one that is no proper escape stays as it is. */
function decodedKey(key: string): string {
  try {
    return decodeURIComponent(key)
  } catch {
    return key
  }
}

/** Machines that are named; the list of machines has all of them. */
const MACHINES_NAMED = 30

const Used = ({ view: { part, fittedIn, shelf }, figures }: { view: PartView; figures: Figures }) => (
  <aside class="card" aria-label="Where it is used">
    <h2>Where it is used</h2>
    <h3>Fitted in</h3>
    {fittedIn.length === 0 ? (
      <p class="soft">No machine has it now.</p>
    ) : (
      <p class="line">
        {fittedIn.slice(0, MACHINES_NAMED).map((tag) => (
          <Tag tag={tag} />
        ))}
      </p>
    )}
    {fittedIn.length > MACHINES_NAMED && (
      <p>
        <a href={listPath('/machines', { q: part.name })}>
          {fill(PART_EN.allMachines, { n: figures.number(fittedIn.length) })}
        </a>
      </p>
    )}
    <h3>On the shelf</h3>
    {shelf.length === 0 ? (
      <p class="soft">Not on the shelf.</p>
    ) : (
      <ul class="ruled">
        {shelf.map((item) => (
          <li>
            <a href={pathToShelfItem(item.id)}>{item.id}</a> {item.condition}, {figures.number(item.quantity)}{' '}
            on the shelf, {figures.money(item.priceMinor)}
          </li>
        ))}
      </ul>
    )}
  </aside>
)

type FormProps = { figure: PartFigure; fromName: boolean; typed: Typed; problems: readonly Problem[] }

const FigureField = ({ figure, fromName, typed, problems }: FormProps) => {
  const { field, label, hint, isYesNo, isLong } = figure
  const shared = { name: `figure.${field}`, label, typed, problems }
  const read = fromName ? 'Read from its name. ' : ''
  return isYesNo ? (
    <Select {...shared} hint={fromName ? read : undefined} choices={YES_NO} />
  ) : (
    <Field {...shared} hint={`${read}${hint}`} rows={isLong ? 3 : undefined} />
  )
}

/** Every figure of the part's kind, as its table takes them. */
export const FiguresFields = (props: {
  part: Part
  typed: Typed
  problems: readonly Problem[]
  note?: string
}) => {
  const { part, typed, problems, note } = props
  return (
    <fieldset>
      <legend>Figures</legend>
      <p class="hint">
        As its data sheet, its label or its print gives them.{' '}
        {note ?? 'What is left empty is not known, and is never taken for fine.'}
      </p>
      <div class="grid">
        {figuresOfKind(part.kind).map((figure) => (
          <FigureField
            figure={figure}
            fromName={part.readFromName?.includes(figure.field) === true}
            typed={typed}
            problems={problems}
          />
        ))}
      </div>
    </fieldset>
  )
}

type PartProps = {
  view: PartView
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  from: string | undefined
  saved: boolean
}

const PartBody = (props: PartProps) => {
  const { view, figures, typed, problems, from, saved } = props
  const { part, fittedIn } = view
  const back = from !== undefined && <a href={from}>{backText(from)}</a>
  return (
    <div class="two">
      <article class="card">
        <p class="soft">
          {KIND_WORDS[part.kind]} <span class="num">{part.id}</span>
        </p>
        <h1>{part.name}</h1>
        {saved && (
          <p class="done" role="status">
            <b>Saved.</b> {back}
          </p>
        )}
        <ProblemSummary problems={problems} labels={(field) => partLabel(part.kind, field)} />
        {fittedIn.length > 1 && (
          <p class="nothing" role="note">
            {fittedIn.length} machines have this part. What you change here changes for all of them.
          </p>
        )}
        <form method="post" action={pathTo('parts', part.id)}>
          {from !== undefined && <input type="hidden" name="from" value={from} />}
          <Field
            name="name"
            label="Name"
            hint="Maker and model. A name you change here does not change the figures below."
            typed={typed}
            problems={problems}
            required
          />
          <FiguresFields part={part} typed={typed} problems={problems} />
          <p class="actions">
            <button class="button" type="submit">
              Save the figures
            </button>
            {!saved && back}
          </p>
        </form>
      </article>
      <Used view={view} figures={figures} />
    </div>
  )
}

export function partRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Shown = Pick<PartProps, 'view' | 'typed' | 'problems' | 'from'> & { readonly saved?: boolean }
  const show = async (c: Context, shown: Shown) => {
    const shop = await uses.shop()
    const first = shown.problems[0]
    return page(
      c,
      { title: shown.view.part.name, demo: options.demo, shopName: shop.name },
      <PartBody saved={false} {...shown} figures={figuresOf(shop)} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/parts/:id', async (c) => {
    const view = await uses.part(param(c, 'id'))
    if (!view.ok) return problemPage(c, web, view.problems)
    const typed = typedFromPart(view.value.part)
    const saved = c.req.query('saved') !== undefined
    return show(c, { view: view.value, typed, problems: [], from: wayBack(c.req.query('from')), saved })
  })

  app.post('/parts/:id', async (c) => {
    const view = await uses.part(param(c, 'id'))
    if (!view.ok) return problemPage(c, web, view.problems)
    const { part } = view.value
    const typed = typedOf(await readForm(c))
    const from = wayBack(textOf(typed, 'from'))
    const read = describedPart(part, typed, readingFor(await uses.shop()))
    const saved = read.ok ? await uses.describePart(read.value) : read
    if (!saved.ok) return show(c, { view: view.value, typed, problems: saved.problems, from })
    const path = from === undefined ? `${pathTo('parts', part.id)}?` : `${pathToPart(part.id, from)}&`
    return c.redirect(`${path}saved`, 303)
  })
}
