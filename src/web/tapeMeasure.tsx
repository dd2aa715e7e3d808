import type { Context, Hono } from 'hono'
import type { Limits } from '../core/limits/limit.ts'
import {
  BETTER_MEASURED,
  TAPE_KEYS,
  type TapeEntry,
  type TapeKey,
  tapeList,
} from '../core/sale/tapeMeasure.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import { TAPE_EN } from '../words/en/tapeMeasure.ts'
import type { Figures } from '../words/figures.ts'
import { sayLimit } from '../words/limits.ts'
import { fill, formOf } from '../words/say.ts'
import { claimOf, wordsOf } from './claimForm.ts'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { askFor, limitLabel } from './limits.tsx'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { pathToSale } from './sellPaths.ts'
import { TAPE_DRAWINGS } from './tapeMeasureDrawings.tsx'
import { fieldReader } from './typed.ts'

const w = TAPE_EN
const plurals = new Intl.PluralRules('en')

type TapeProps = {
  tag: string
  limits: Limits
  isSelling: boolean
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  saved?: number | undefined
}

const UNITS: Partial<Record<TapeKey, string>> = {
  cardRoomMm: 'mm',
  coolerRoomMm: 'mm',
  supply12VW: 'W',
  supplyRatedW: 'W',
}

const One = ({ limitKey, figures, typed, problems }: TapeProps & { limitKey: TapeKey }) => {
  const name = `limit.${limitKey}`
  const { label } = askFor(limitKey, figures)
  const choices = wordsOf(limitKey)
  const shared = { name, label, typed, problems, hint: w.examples[limitKey] }
  return choices === undefined ? (
    <Field {...shared} unit={UNITS[limitKey]} narrow />
  ) : (
    <Select {...shared} choices={[['', '–'], ...choices.map((word) => [word, word] as const)]} />
  )
}

const Known = (props: TapeProps & { entry: TapeEntry }) => {
  const { entry, limits, figures, typed, problems } = props
  if (entry.known.length === 0) return null
  const isAsked = (key: TapeKey) =>
    typed.has(`limit.${key}`) && problems.some(({ field }) => field === `limit.${key}`)
  const counted = fill(formOf(w.known, entry.known.length, plurals), {
    n: figures.number(entry.known.length),
  })
  return (
    <details open={entry.known.some(isAsked)}>
      <summary>
        {counted}
        <span class="unseen">: {w.places[entry.place].name}</span>
      </summary>
      {entry.known.map((key) => {
        const { value, by } = sayLimit(key, limits[key], figures)
        return (
          <>
            <One {...props} limitKey={key} />
            <p class="soft">
              {fill(w.now, { value, by })} {BETTER_MEASURED.has(key) && w.better}
            </p>
          </>
        )
      })}
    </details>
  )
}

const Place = (props: TapeProps & { entry: TapeEntry }) => {
  const { entry } = props
  const Drawing = TAPE_DRAWINGS[entry.place]
  const { name, where } = w.places[entry.place]
  return (
    <fieldset class="tape-place">
      <legend>{name}</legend>
      <div class="tape-where">
        <Drawing />
        <div>
          <p>{where}</p>
          {entry.open.map((key) => (
            <One {...props} limitKey={key} />
          ))}
          <Known {...props} />
        </div>
      </div>
    </fieldset>
  )
}

const TapeBody = (props: TapeProps) => {
  const { tag, limits, isSelling, figures, problems, saved } = props
  const list = tapeList(limits)
  const open = list.reduce((sum, entry) => sum + entry.open.length, 0)
  const n = figures.number(open)
  const back = isSelling ? pathToSale(tag) : pathTo('machines', tag)
  return (
    <form method="post" action={`${pathTo('machines', tag)}/measure`} class="card form">
      <p class="line">
        <Tag tag={tag} />
      </p>
      <h1>{fill(w.head, { tag })}</h1>
      {saved !== undefined && (
        <p class="kept" role="status">
          {saved === 0 ? w.savedNone : fill(formOf(w.saved, saved, plurals), { n: figures.number(saved) })}
        </p>
      )}
      <ProblemSummary problems={problems} labels={(field) => limitLabel(field, figures)} />
      <p>{w.about}</p>
      <p class="nothing">{w.caution}</p>
      <p>{open === 0 ? w.nothing : fill(formOf(w.left, open, plurals), { n })}</p>
      {list.map((entry) => (
        <Place {...props} entry={entry} />
      ))}
      <p class="actions">
        <button class="button" type="submit">
          {w.save}
        </button>
        <a href={back}>{isSelling ? w.toSale : w.toMachine}</a>
      </p>
    </form>
  )
}

/** What was typed, as one who put a tape to it says it. */
const asMeasured = (typed: Typed): Typed =>
  new Map([...typed, ...TAPE_KEYS.map((key) => [`source.${key}`, ['measured']] as const)])

export function tapeMeasureRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, tape] = await Promise.all([uses.shop(), uses.tape(param(c, 'tag'))])
    if (!tape.ok) return problemPage(c, web, tape.problems, 'Machines')
    const saved = /^\d{1,2}$/.exec(c.req.query('saved') ?? '')?.[0]
    const first = problems[0]
    return page(
      c,
      { title: w.title, place: 'Machines', demo: options.demo, shopName: shop.name },
      <TapeBody
        {...tape.value}
        figures={figuresOf(shop)}
        typed={typed}
        problems={problems}
        saved={saved === undefined ? undefined : Number(saved)}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/machines/:tag/measure', (c) => show(c, new Map(), []))

  app.post('/machines/:tag/measure', async (c) => {
    const typed = typedOf(await readForm(c))
    const tape = await uses.tape(param(c, 'tag'))
    if (!tape.ok) return problemPage(c, web, tape.problems, 'Machines')
    const reader = fieldReader(asMeasured(typed), readingFor(await uses.shop()))
    const claims = TAPE_KEYS.flatMap((key) => claimOf(key, reader) ?? [])
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    const saved = claims.length === 0 ? tape : await uses.recordLimits(tape.value.tag, claims)
    if (!saved.ok) return show(c, typed, saved.problems)
    return c.redirect(`${pathTo('machines', tape.value.tag)}/measure?saved=${claims.length}`, 303)
  })
}
