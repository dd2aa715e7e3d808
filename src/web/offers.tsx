import type { Context, Hono } from 'hono'
import type { Shop } from '../core/answer.ts'
import { AIMS, type Chosen, COMPANIONS } from '../core/matching/ask.ts'
import { money, number, oneOf, whole } from '../input/cells.ts'
import { OVER_OFFER_MOST, QUANTITY_MOST, QUIET_DAYS_MOST, readMatchAsk } from '../input/matchAsk.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { MatchingsView } from '../uses/matching/matching.ts'
import { LONG_WORK_EN } from '../words/en/longWork.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { Field, FirstSubmit, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { costOf, ENTER, type FormProps, ItemFields, nameOf, otherPiece, piecesOf } from './offersPieces.tsx'
import { LEAST_PCT, offersPriceRoutes, PriceForm, pathToDemand } from './offersPrice.tsx'
import { offersResultRoutes, pathToMatching } from './offersResult.tsx'
import { OnceKey } from './onceKey.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = OFFERS_EN.list

const AskForm = ({ view, figures, ...form }: { view: MatchingsView; figures: Figures } & FormProps) => {
  const labels = new Map(
    view.choosable.flatMap((line) => [
      [piecesOf(line.item.id), nameOf(line)] as const,
      [costOf(line.item.id), nameOf(line)] as const,
    ]),
  )
  const labelOf = (field: string): string | undefined => FIELD_LABELS[field] ?? labels.get(field)
  return (
    <section class="card form">
      <h2>{W.form}</h2>
      <ProblemSummary problems={form.problems} labels={labelOf} />
      <form method="post" action="/offers">
        <OnceKey />
        <FirstSubmit value={ENTER} />
        <ItemFields all={view.choosable} figures={figures} {...form} />
        <div class="row">
          <Select
            {...form}
            name="aim"
            label={W.aim}
            choices={AIMS.map((aim) => [aim, W.aims[aim]] as const)}
          />
          <Field {...form} name="percent" label={W.percent} hint={W.percentHint} inputmode="decimal" narrow />
        </div>
        <div class="row">
          <Field {...form} name="smallest" label={W.smallest} unit="%" inputmode="decimal" narrow />
          <Field
            {...form}
            name="overOffer"
            label={W.overOffer}
            hint={W.overOfferHint}
            inputmode="decimal"
            narrow
          />
          <Field
            {...form}
            name="quiet"
            label={W.quiet}
            hint={W.quietHint}
            unit="days"
            inputmode="numeric"
            narrow
          />
        </div>
        <Select
          {...form}
          name="companions"
          label={W.companions}
          choices={COMPANIONS.map((choice) => [choice, W.companionChoices[choice]] as const)}
        />
        <p class="does">
          <button class="button" type="submit">
            {W.start}
          </button>
        </p>
      </form>
    </section>
  )
}

const FIELD_LABELS: Readonly<Record<string, string>> = {
  ...{ aim: W.aim, percent: W.percent, smallest: W.smallest, overOffer: W.overOffer, quiet: W.quiet },
  companions: W.companions,
}

/** Matchings and questions about one part, the last first. */
const Earlier = ({ view, figures }: { view: MatchingsView; figures: Figures }) => {
  const lines = [
    ...view.matchings.map((work) => ({ work, path: pathToMatching(work.id), of: W.ofShelf })),
    ...view.demands.map((work) => ({
      ...{ work, path: pathToDemand(work.id) },
      of: fill(W.ofPart, { of: work.name ?? '' }),
    })),
  ].sort((a, b) => Number(b.work.id) - Number(a.work.id))
  return (
    <section class="card">
      <h2>{W.earlier}</h2>
      {lines.length === 0 ? (
        <p class="nothing">{W.noEarlier}</p>
      ) : (
        <ul class="ruled">
          {lines.map(({ work, path, of }) => (
            <li>
              <p class="line">
                <a href={path}>{of}</a>
                <span class="soft">
                  {fill(W.of, { at: figures.dateTime(work.askedAt) })}, {LONG_WORK_EN.states[work.state]}
                </span>
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

/** What the form says before anything is typed, beside every free piece: the shop's own least gain. */
const firstTyped = ({ policy }: Shop): Typed =>
  new Map([
    ...([
      ['aim', ['gain']],
      ['overOffer', ['1']],
      ['smallest', [String(policy.smallestGainPct)]],
      ['quiet', ['90']],
      ['companions', ['counted']],
    ] as const),
  ])

export function offersRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.matchings()])
    const figures = figuresOf(shop)
    const status = problems[0] === undefined ? 200 : STATUS_OF[problems[0].code]
    return page(
      c,
      { title: W.head, place: 'Offers', demo: options.demo, shopName: shop.name },
      <>
        <h1>{W.head}</h1>
        <p class="hint">{W.about}</p>
        <p class="line">
          <a href="/rounds">{ROUNDS_EN.list.title}</a>
        </p>
        {view.choosable.length === 0 ? (
          <p class="card empty">{W.noItems}</p>
        ) : (
          <AskForm view={view} figures={figures} typed={typed ?? firstTyped(shop)} problems={problems} />
        )}
        <section class="card">
          <h2>{OFFERS_EN.price.head}</h2>
          <PriceForm shop={shop} typed={new Map([['least', [String(LEAST_PCT)]]])} problems={[]} />
        </section>
        <Earlier view={view} figures={figures} />
      </>,
      status,
    )
  }

  app.get('/offers', (c) => show(c, undefined, []))
  app.post('/offers', async (c) => {
    const typed = typedOf(await readForm(c))
    const [shop, view] = await Promise.all([uses.shop(), uses.matchings()])
    const other = otherPiece(typed)
    if (other !== undefined) return show(c, other, [])
    const reader = fieldReader(typed, readingFor(shop))
    const items = view.choosable.flatMap(({ item }): Chosen[] => {
      // What was never sent is as the form begins; what was sent empty is left out.
      const isTyped = typed.has(piecesOf(item.id))
      const quantity = isTyped
        ? reader.read(piecesOf(item.id), whole(0, QUANTITY_MOST, 'pieces'))
        : item.quantity
      const costMinor = reader.read(costOf(item.id), money)
      if (quantity === undefined || quantity === 0) return []
      return [{ itemId: item.id, quantity, ...(costMinor !== undefined && { costMinor }) }]
    })
    const ask = {
      ...{ items, aim: reader.read('aim', oneOf(AIMS)), percentMinor: reader.read('percent', money) },
      overOffer: reader.read('overOffer', number(1, OVER_OFFER_MOST)),
      smallestGainPct: reader.read('smallest', number(0, 1000, '%')),
      quietDays: reader.read('quiet', whole(0, QUIET_DAYS_MOST, 'days')),
      companions: reader.read('companions', oneOf(COMPANIONS)),
    }
    const [first] = view.choosable
    if (items.length === 0 && first !== undefined && reader.problems.length === 0)
      reader.problems.push({ code: 'missing', field: piecesOf(first.item.id), next: W.missingItems })
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    const read = readMatchAsk(ask)
    if (!read.ok)
      return show(
        c,
        typed,
        read.problems.map((problem) => inForm(problem, items)),
      )
    const asked = await uses.askMatching(read.value)
    if (!asked.ok)
      return show(
        c,
        typed,
        asked.problems.map((problem) => inForm(problem, items)),
      )
    return c.redirect(pathToMatching(asked.value.id), 303)
  })
  // Fixed paths before the ones with a key in them.
  offersPriceRoutes(app, web)
  offersResultRoutes(app, web)
}

/** The field of the form that a field of the ask came from. */
function inForm(problem: Problem, items: readonly Chosen[]): Problem {
  const [, at, what] = /^items\.(\d+)\.(\w+)$/.exec(problem.field) ?? []
  const itemId = items[Number(at)]?.itemId
  if (itemId !== undefined)
    return { ...problem, field: what === 'costMinor' ? costOf(itemId) : piecesOf(itemId) }
  return problem.field === 'percentMinor' ? { ...problem, field: 'percent' } : problem
}
