import type { Context, Hono } from 'hono'
import type { Shop } from '../core/answer.ts'
import { type Chance, highestOf, type Prey, type Wanting } from '../core/ranking/hunt.ts'
import { daysSince } from '../input/dates.ts'
import type { HuntProgress, HuntView } from '../uses/hunt.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import type { Figures } from '../words/figures.ts'
import { belowWords, buyBelowWords, couldBuyWords, questionsCounted } from '../words/findable.ts'
import { optionWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { pathToFindable } from './findable.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { type Clock, clockOf, isStale as isOldPrice } from './priceAge.tsx'

const W = FINDABLE_EN.hunt

/** A first look that would wait longer than this says how far it is. */
const PATIENCE_MS = 800
const RELOAD_S = 2
/** What is read meanwhile does not jump often. */
const STALE_RELOAD_S = 20

type Shown = { view: HuntView; figures: Figures; clock: Clock }

/** What one question would pay, and what the part must beat there. */
const Why = ({ wanting, shown: { view, figures } }: { wanting: Wanting; shown: Shown }) => {
  const question = view.questions.get(wanting.questionId)
  const words = (option: Parameters<typeof optionWords>[0]) => optionWords(option, view.parts)
  return (
    <li>
      <p class="line">
        {question !== undefined && <Tag tag={question.machineTag} />}
        <a href={pathTo('questions', wanting.questionId)}>“{question?.words ?? wanting.questionId}”</a>
        {question?.customerName !== undefined && <span class="soft">{question.customerName}</span>}
      </p>
      {wanting.prices.map((price) => (
        <p>{buyBelowWords(price, figures, question?.budgetMinor, words)}</p>
      ))}
    </li>
  )
}

/** The price as words; nothing where it helps nobody. */
const below = ({ wanting: [first] }: Prey, figures: Figures): string | undefined => {
  if (first === undefined) return undefined
  const most = highestOf(first)
  return belowWords(Number.isFinite(most) ? most : undefined, figures)
}

const Line = ({ prey, shown }: { prey: Prey; shown: Shown }) => {
  const { findable, part, wanting } = prey
  const { figures, clock } = shown
  const price = below(prey, figures)
  return (
    <li>
      <p class="line">
        <b>
          <a href={pathToFindable(findable.id)}>{part.name}</a>
        </b>
        {price !== undefined && <b class="num">{price}</b>}
      </p>
      <p class="soft">
        {findable.condition},{' '}
        {couldBuyWords(findable, daysSince(findable.at, clock.now, clock.timeZone), figures)}
        {findable.place !== undefined && `, ${findable.place}`}{' '}
        {isOldPrice(findable.at, clock) && <span class="grade">{FINDABLE_EN.old}</span>}
      </p>
      {wanting.length > 0 && (
        <ul class="ruled">
          {wanting.map((one) => (
            <Why wanting={one} shown={shown} />
          ))}
        </ul>
      )}
    </li>
  )
}

const ORDER: readonly Chance[] = ['as seen', 'at the low end', 'for less', 'nobody']

const Hunt = ({ shown, isTaxed, isStale }: { shown: Shown; isTaxed: boolean; isStale: boolean }) => {
  const { prey, questions } = shown.view
  return (
    <article class="card">
      <h1>{W.head}</h1>
      <p class="soft" role="status">
        {fill(W.workedOut, { dateTime: shown.figures.dateTime(shown.view.at) })}
        {isStale && ` ${W.stale}`}
      </p>
      {prey.length === 0 ? (
        <p class="nothing">
          {W.noList} <a href="/findable/new">{FINDABLE_EN.list.add}</a>
        </p>
      ) : (
        <>
          <p class="hint">
            {fill(W.about, { beforeTax: isTaxed ? W.beforeTax : '' })} {W.onePiece}{' '}
            {questions.size > 0 && questionsCounted(questions.size)}
          </p>
          {questions.size === 0 && <p class="nothing">{W.noQuestions}</p>}
          {questions.size > 0 &&
            ORDER.map((chance) => {
              const lines = prey.filter((line) => line.chance === chance)
              return lines.length === 0 ? null : (
                <section>
                  <h2>{W.chances[chance]}</h2>
                  <ul class="ruled">
                    {lines.map((line) => (
                      <Line prey={line} shown={shown} />
                    ))}
                  </ul>
                </section>
              )
            })}
        </>
      )}
      <p class="line">
        <a href="/findable">{FINDABLE_EN.list.head}</a>
        <a href="/shelf">{FINDABLE_EN.shelfItem.all}</a>
      </p>
    </article>
  )
}

const Waiting = ({ progress: { done, of }, figures }: { progress: HuntProgress; figures: Figures }) => (
  <section class="card">
    <h1>{W.waiting}</h1>
    <p role="status">{fill(W.progress, { done: figures.number(done), of: figures.number(of) })}</p>
    <progress max={Math.max(1, of)} value={done} aria-label={W.waiting} />
    <p>
      {W.comesAgain} <a href="/hunt">{W.open}</a>
    </p>
  </section>
)

const Failed = () => (
  <section class="card">
    <h1>{W.head}</h1>
    <p role="status">{W.failed}</p>
    <p>
      <a href="/hunt">{W.open}</a>
    </p>
  </section>
)

export function huntRoutes(app: Hono, { uses, options }: Web): void {
  const draw = (c: Context, shop: Shop, body: Parameters<typeof page>[2]) =>
    page(c, { title: W.head, place: 'Shelf', demo: options.demo, shopName: shop.name }, body)

  app.get('/hunt', async (c) => {
    const [shop, now] = await Promise.all([uses.shop(), uses.hunt(PATIENCE_MS)])
    const figures = figuresOf(shop)
    if (now.state === 'under way') {
      c.header('Refresh', String(RELOAD_S))
      return draw(c, shop, <Waiting progress={now.progress} figures={figures} />)
    }
    if (now.state === 'failed') return draw(c, shop, <Failed />)
    if (now.isStale) c.header('Refresh', String(STALE_RELOAD_S))
    const { salesTaxBp = 0, taxIncluded = false } = shop.policy
    const shown = { view: now.told, figures, clock: clockOf(shop, uses.now()) }
    return draw(
      c,
      shop,
      <Hunt shown={shown} isTaxed={salesTaxBp > 0 && !taxIncluded} isStale={now.isStale} />,
    )
  })
}
