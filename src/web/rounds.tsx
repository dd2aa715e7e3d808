import type { Context, Hono } from 'hono'
import { key, line, money, number, whole } from '../input/cells.ts'
import { OVER_OFFER_MOST, QUANTITY_MOST, QUIET_DAYS_MOST } from '../input/matchAsk.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { RoundLine, RoundsView } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { partWords } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, FieldProblems, idOf, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = ROUNDS_EN.list
const PLURAL = new Intl.PluralRules('en')

export const pathToRound = (id: string): string => `/rounds/${encodeURIComponent(id)}`

type Props = {
  readonly view: RoundsView
  readonly figures: Figures
  readonly typed: Typed
  readonly problems: readonly Problem[]
}

/** An offer holds a year at most. */
const VALID_DAYS_MOST = 366

const LABELS: Readonly<Record<string, string>> = {
  ...{ of: W.of, pieces: W.pieces, overOffer: W.overOffer, valid: W.valid, quiet: W.quiet },
  ...{ tags: W.tags, cost: W.cost, price: W.price, wanted: W.wanted, sure: W.sure },
}

function choicesOf({ shelf, findable }: RoundsView, figures: Figures): (readonly [string, string])[] {
  return [
    ...shelf.map(({ item, part }) => {
      const words = { part: partWords([part], part.id), id: item.id, price: figures.money(item.priceMinor) }
      return [item.id, fill(W.shelfChoice, { ...words, n: figures.number(item.quantity) })] as const
    }),
    ...findable.map(({ findable: { id, highMinor }, part }) => {
      const words = { part: partWords([part], part.id), id, price: figures.money(highMinor) }
      return [id, fill(W.dealChoice, words)] as const
    }),
  ]
}

/** Only where something is unwise: what, and that it is wanted all the same. */
export const Sure = ({ problems, says }: { problems: readonly Problem[]; says: string }) =>
  problems.every(({ field }) => field !== 'sure') ? null : (
    <div class="field bad">
      <label class="check">
        <input
          id={idOf('sure')}
          type="checkbox"
          name="sure"
          value="yes"
          aria-invalid="true"
          aria-describedby={`${idOf('sure')}-wrong`}
        />{' '}
        {says}
      </label>
      <FieldProblems name="sure" problems={problems} />
    </div>
  )

const New = ({ view, figures, ...form }: Props) => (
  <section class="card form" id="new">
    <h2>{W.make}</h2>
    <ProblemSummary problems={form.problems} labels={(field) => LABELS[field]} />
    <form method="post" action="/rounds">
      <OnceKey />
      <Select {...form} name="of" label={W.of} choices={choicesOf(view, figures)} />
      <div class="row">
        <Field {...form} name="pieces" label={W.pieces} hint={W.piecesHint} inputmode="numeric" narrow />
        <Field
          {...form}
          name="overOffer"
          label={W.overOffer}
          hint={W.overOfferHint}
          inputmode="decimal"
          narrow
        />
      </div>
      <div class="row">
        <Field {...form} name="valid" label={W.valid} unit={W.days} inputmode="numeric" narrow />
        <Field {...form} name="quiet" label={W.quiet} unit={W.days} inputmode="numeric" narrow />
      </div>
      <Field {...form} name="tags" label={W.tags} hint={W.tagsHint} />
      <Field {...form} name="cost" label={W.cost} hint={W.costHint} inputmode="decimal" narrow />
      {view.findable.length > 0 && (
        <fieldset>
          <legend>{W.dealHead}</legend>
          <p class="hint">{W.dealHint}</p>
          <div class="row">
            <Field {...form} name="price" label={W.price} inputmode="decimal" narrow />
            <Field {...form} name="wanted" label={W.wanted} hint={W.wantedHint} inputmode="numeric" narrow />
          </div>
        </fieldset>
      )}
      <Sure problems={form.problems} says={W.sure} />
      <p class="does">
        <button class="button" type="submit">
          {W.start}
        </button>
      </p>
    </form>
  </section>
)

const Line = ({ round, figures }: { round: RoundLine; figures: Figures }) => {
  const { id, state, kind, createdAt, begunAt, seats } = round
  const asked = Object.values(seats).reduce((a, b) => a + b, 0) - seats['left out']
  const yes = (['held', 'done', 'counted', 'too late', 'to settle', 'not bought'] as const).reduce(
    (sum, standing) => sum + seats[standing],
    0,
  )
  return (
    <li>
      <p class="line">
        <a href={pathToRound(id)}>{fill(ROUNDS_EN.round.head, { id })}</a>
        <span class="soft">
          {ROUNDS_EN.states[state]}
          {kind === 'deal' && `, ${W.deal}`}
        </span>
      </p>
      <p class="soft">
        {figures.dateTime(createdAt)}.{' '}
        {state === 'draft'
          ? fill(formOf(W.lineDraft, asked, PLURAL), { asked: figures.number(asked) })
          : begunAt === undefined
            ? W.lineDropped
            : fill(W.line, { asked: figures.number(asked), yes: figures.number(yes) })}
      </p>
    </li>
  )
}

/** All free pieces of the item that was named; one of what would still have to be bought. */
const firstTyped = ({ shop: { policy }, shelf }: RoundsView, of: string | undefined): Typed =>
  new Map([
    ...(of === undefined ? [] : [['of', [of]] as const]),
    ...([
      ['pieces', [String(shelf.find(({ item }) => item.id === of)?.item.quantity ?? 1)]],
      ['overOffer', ['1.5']],
      ['valid', [String(policy.priceValidDays)]],
      ['quiet', ['90']],
    ] as const),
  ])

/** Rounds there are, and the form for one about an item. */
export function roundsRoutes(app: Hono, { uses, options }: Web): void {
  const web = { uses, options }

  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const view = await uses.rounds()
    const figures = figuresOf(view.shop)
    const [first] = problems
    return page(
      c,
      { title: W.title, place: 'Offers', demo: options.demo, shopName: view.shop.name },
      <>
        <div class="head">
          <h1>{W.title}</h1>
          <p class="line">
            <a href="/offers">{ROUNDS_EN.offers}</a>
          </p>
        </div>
        <p class="hint">{W.about}</p>
        <section class="card">
          <h2>{W.all}</h2>
          {view.rounds.length === 0 ? (
            <p class="nothing">{W.none}</p>
          ) : (
            <ul class="ruled">
              {view.rounds.map((round) => (
                <Line round={round} figures={figures} />
              ))}
            </ul>
          )}
        </section>
        {view.shelf.length + view.findable.length === 0 ? (
          <p class="card empty">{W.noItems}</p>
        ) : (
          <New
            view={view}
            figures={figures}
            typed={typed ?? firstTyped(view, c.req.query('of'))}
            problems={problems}
          />
        )}
      </>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/rounds', (c) => show(c, undefined, []))

  app.post('/rounds', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const of = reader.need('of', key, W.needOf)
    const pieces = reader.need('pieces', whole(1, QUANTITY_MOST, 'pieces'), W.needPieces)
    const validDays = reader.need('valid', whole(1, VALID_DAYS_MOST, 'days'), W.needValid)
    const tags = (reader.read('tags', line(4000)) ?? '').split(/[,;\s]+/).filter((tag) => tag !== '')
    const ask = {
      overOffer: reader.read('overOffer', number(1, OVER_OFFER_MOST)) ?? 1,
      quietDays: reader.read('quiet', whole(0, QUIET_DAYS_MOST, 'days')) ?? 0,
      ...{ costMinor: reader.read('cost', money), priceMinor: reader.read('price', money), tags },
      wantedYeses: reader.read('wanted', whole(1, QUANTITY_MOST, 'yeses')),
      knows: textOf(typed, 'sure') === 'yes',
    }
    if (of === undefined || pieces === undefined || validDays === undefined || reader.problems.length > 0)
      return show(c, typed, reader.problems)
    const made = await uses.roundFromItem({ ...ask, of, pieces, validDays }, nameOf(who(c)))
    return made.ok ? c.redirect(pathToRound(made.value.roundId), 303) : show(c, typed, made.problems)
  })

  app.post('/offers/:id/round', async (c) => {
    const made = await uses.roundFromMatching(param(c, 'id'), nameOf(who(c)))
    return made.ok
      ? c.redirect(pathToRound(made.value.roundId), 303)
      : problemPage(c, web, made.problems, 'Offers')
  })
}
