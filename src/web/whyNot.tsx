import type { Context, Hono } from 'hono'
import type { Finding } from '../core/fit/finding.ts'
import { PART_KINDS, type PartKind } from '../core/part.ts'
import type { WhyNot } from '../core/ranking/whyNot.ts'
import { line, money, oneOf } from '../input/cells.ts'
import { daysSince } from '../input/dates.ts'
import { type Problem, type Result, STATUS_OF } from '../problem.ts'
import { isBeingWorkedOut } from '../uses/answerQuestion.ts'
import type { WhyNotAsk, WhyNotView } from '../uses/whyNot.ts'
import { WHY_NOT_EN } from '../words/en/whyNot.ts'
import type { Figures } from '../words/figures.ts'
import { couldBuyWords, rangeWords } from '../words/findable.ts'
import { sayFinding } from '../words/findings.ts'
import { KIND_WORDS, optionWords, partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { placeWords, priceLimitWords } from '../words/whyNot.ts'
import { Field, ProblemSummary, Select, type Typed } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag, VerdictMark } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { fieldReader } from './typed.ts'
import { PATIENCE_MS, waitingPage } from './waiting.tsx'

const W = WHY_NOT_EN

export const pathToWhyNot = (questionId: string): string => `${pathTo('questions', questionId)}/why-not`

const KINDS = PART_KINDS.map((kind) => [kind, KIND_WORDS[kind]] as const)

type FormProps = { view: WhyNotView; figures: Figures; typed: Typed; problems: readonly Problem[] }

/** Everything that can be asked about; the address says what was, so that it can be sent on. */
const Ask = ({ view: { inputs, findable }, figures, typed, problems }: FormProps) => {
  const { question, shelf, parts } = inputs
  const shelfChoices = shelf.map((item) => {
    const part = partWords(parts, item.partId)
    const words = fill(W.onShelf, { part, condition: item.condition, price: figures.money(item.priceMinor) })
    return [`shelf:${item.id}`, words] as const
  })
  const foundChoices = findable.map(({ findable: found, part }) => {
    const words = fill(W.couldBuy, { part: part.name, range: rangeWords(found, figures) })
    return [`found:${found.id}`, words] as const
  })
  const form = { typed, problems }
  return (
    <form method="get" action={pathToWhyNot(question.id)} class="form">
      <Select
        {...form}
        name="part"
        label={W.pick}
        choices={[['', W.none], ...shelfChoices, ...foundChoices]}
      />
      <fieldset>
        <legend>{W.typedHead}</legend>
        <div class="grid">
          <Select {...form} name="kind" label={W.kind} choices={KINDS} />
          <Field {...form} name="words" label={W.words} hint={W.wordsHint} />
          <Field {...form} name="price" label={W.price} hint={W.priceHint} inputmode="decimal" narrow />
        </div>
      </fieldset>
      <p class="does">
        <button class="button" type="submit">
          {W.ask}
        </button>
        <a href={pathTo('questions', question.id)}>{W.back}</a>
      </p>
    </form>
  )
}

const findingsOf = (told: WhyNot): readonly Finding[] => {
  if (told.place === 'ruled out') return told.out.findings
  return 'option' in told ? told.option.findings.filter(({ verdict }) => verdict !== 'fits') : []
}

const verdictOf = (told: WhyNot) =>
  told.place === 'ruled out' ? told.out.verdict : 'option' in told ? told.option.verdict : undefined

/** What is known of its price, and how old that is. */
const priceText = ({ told, seen }: WhyNotView, figures: Figures, now: string, timeZone: string): string => {
  if (told?.priceMinor === undefined) return ''
  const price = figures.money(told.priceMinor)
  if (seen === undefined) return fill(W.counted, { price })
  return fill(W.countedHigh, { price, seen: couldBuyWords(seen, daysSince(seen.at, now, timeZone), figures) })
}

const Told = ({ view, figures, now }: { view: WhyNotView; figures: Figures; now: string }) => {
  const { told, inputs } = view
  if (told === undefined) return null
  const { question, work, shop } = inputs
  const parts = inputs.parts.some(({ id }) => id === told.part.id)
    ? inputs.parts
    : [...inputs.parts, told.part]
  const lookup = {
    partName: (id: string) => partWords(parts, id),
    minutes: (id: string) => work.find((w) => w.work === id)?.minutes,
  }
  const budget = question.budgetMinor === undefined ? '' : figures.money(question.budgetMinor)
  const prices = priceLimitWords(told, budget, figures)
  const verdict = verdictOf(told)
  const { pick } = told
  return (
    <section id="place">
      <h2>{partWords(parts, told.part.id)}</h2>
      <p class="soft">{priceText(view, figures, now, shop.timeZone)}</p>
      {verdict !== undefined && (
        <p>
          <VerdictMark verdict={verdict} />
        </p>
      )}
      {placeWords(told, parts, figures).map((text) => (
        <p>{text}</p>
      ))}
      {findingsOf(told).length > 0 && (
        <ul class="ruled">
          {findingsOf(told).map((finding) => {
            const { owner, next, builder } = sayFinding(finding, figures, lookup)
            return (
              <li>
                <VerdictMark verdict={finding.verdict} /> {owner} {next}
                <small class="block">{builder}</small>
              </li>
            )
          })}
        </ul>
      )}
      {told.cheaper !== undefined && (
        <p>{fill(W.cheaper, { price: figures.money(told.cheaper.priceMinor) })}</p>
      )}
      {prices.length > 0 && <h3>{W.priceHead}</h3>}
      {prices.map((text) => (
        <p>{text}</p>
      ))}
      {pick !== undefined && (
        <p class="soft">
          {fill(W.pickIs, {
            option: optionWords(pick, parts),
            gain: figures.gainPct(pick.useful?.pct ?? 0),
            net: figures.money(pick.price.netMinor),
          })}
        </p>
      )}
    </section>
  )
}

/** What the address asks about; undefined where it asks about nothing. */
function askOf(typed: Typed, reading: Parameters<typeof fieldReader>[1]): Result<WhyNotAsk | undefined> {
  const { read, problems } = fieldReader(typed, reading)
  const [, from, id = ''] = /^(shelf|found):(.+)$/.exec(typed.get('part')?.[0] ?? '') ?? []
  if (from !== undefined) return { ok: true, value: from === 'shelf' ? { itemId: id } : { findableId: id } }
  const words = read('words', line())
  const kind = read('kind', oneOf(PART_KINDS)) ?? ('card' satisfies PartKind)
  const priceMinor = read('price', money)
  if (problems.length > 0) return { ok: false, problems }
  if (words !== undefined) return { ok: true, value: { kind, words, priceMinor } }
  if (!typed.has('words')) return { ok: true, value: undefined }
  return { ok: false, problems: [{ code: 'missing', field: 'part', next: W.needPart }] }
}

const labelOf = (field: string): string | undefined =>
  ({ part: W.pick, words: W.words, kind: W.kind, price: W.price })[field]

export function whyNotRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const draw = (c: Context, view: WhyNotView, typed: Typed, problems: readonly Problem[]) => {
    const { shop, question } = view.inputs
    const figures = figuresOf(shop)
    const [first] = problems
    return page(
      c,
      { title: W.head, place: 'Questions', demo: options.demo, shopName: shop.name },
      <article class="card">
        <p class="line">
          <Tag tag={question.machineTag} />
          <span class="soft">“{question.words}”</span>
        </p>
        <h1>{W.head}</h1>
        <p class="hint">{W.about}</p>
        <ProblemSummary problems={problems} labels={labelOf} kept="What you typed is still here." />
        <Told view={view} figures={figures} now={uses.now()} />
        <Ask view={view} figures={figures} typed={typed} problems={problems} />
      </article>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/questions/:id/why-not', async (c) => {
    const id = param(c, 'id')
    const typed: Typed = new Map(Object.entries(c.req.queries()))
    const ask = askOf(typed, readingFor(await uses.shop()))
    const view = await uses.whyNot(id, ask.ok ? ask.value : undefined, PATIENCE_MS)
    if (view.ok) return draw(c, view.value, typed, ask.ok ? [] : ask.problems)
    if (isBeingWorkedOut(view.problems)) return waitingPage(c, web, undefined)
    const bare = await uses.whyNot(id, undefined, PATIENCE_MS)
    return bare.ok
      ? draw(c, bare.value, typed, view.problems)
      : problemPage(c, web, view.problems, 'Questions')
  })
}
