import type { Hono } from 'hono'
import { withoutTurns } from '../core/direction.ts'
import { type Problem, STATUS_OF, shortGot } from '../problem.ts'
import { type Found, HIT_KINDS, type Hit, type HitKind } from '../uses/findAnything.ts'
import { GO_TO_EN } from '../words/en/goTo.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { who } from './access/who.ts'
import { problemText } from './form.tsx'
import { figuresOf, pathTo, pathToShelfItem, type Web } from './frame.ts'
import { type Goal, goalsFor, goalsNamed, mayOpen } from './goTo.ts'
import { page } from './layout.tsx'
import { listPath } from './pages.tsx'
import { pathToLook } from './platformsResult.tsx'
import { pathToRound } from './rounds.tsx'
import { pathToRun } from './runTable.tsx'

const W = GO_TO_EN.find

/** Of a kind; one more is asked for, to tell whether there are more. */
const SHOWN = 8
/** Longer words are no name, tag or sentence of a shop. */
const LONGEST = 100

type KindOfHit = {
  /** The page of one of them, as its route is registered. */
  readonly pattern: string
  readonly path: (id: string) => string
  /** The list where all of them can be looked through, found by the same words. */
  readonly list?: string
}

const KINDS: Record<HitKind, KindOfHit> = {
  machine: { pattern: '/machines/:tag', path: (id) => pathTo('machines', id), list: '/machines' },
  customer: { pattern: '/customers/:id', path: (id) => pathTo('customers', id), list: '/customers' },
  question: { pattern: '/questions/:id', path: (id) => pathTo('questions', id), list: '/questions' },
  job: { pattern: '/jobs/:id', path: (id) => pathTo('jobs', id) },
  round: { pattern: '/rounds/:id', path: pathToRound },
  mail: { pattern: '/outbox/:id', path: (id) => `/outbox/${encodeURIComponent(id)}`, list: '/outbox' },
  plan: { pattern: '/platforms/:id', path: pathToLook },
  item: { pattern: '/shelf', path: pathToShelfItem, list: '/shelf' },
  part: { pattern: '/parts/:id', path: (id) => pathTo('parts', id) },
  title: { pattern: '/titles/:id', path: (id) => `/titles/${encodeURIComponent(id)}` },
  run: { pattern: '/runs/:id', path: pathToRun },
}

/** What was typed, or what is wrong with it. */
function problemsOf(typed: string): Problem[] {
  const wrong = (code: Problem['code'], next: string): Problem[] => [
    { code, field: 'q', ...(code !== 'missing' && { got: typed }), next },
  ]
  if (typed.trim() === '') return wrong('missing', W.empty)
  if (/\p{Cc}/u.test(typed.trim())) return wrong('not allowed', W.unseen)
  const most = { most: String(LONGEST) }
  return [...typed.trim()].length > LONGEST ? wrong('not allowed', fill(W.long, most)) : []
}

/** Called by their key; what else is told of them stands beside it. */
const isNameless = (kind: HitKind): boolean => kind === 'machine' || kind === 'job' || kind === 'round'
/** Their key is a number that nobody sees. */
const isKeyless = (kind: HitKind): boolean => kind === 'mail' || kind === 'plan'

/** Its name, with what tells it from others of its name beside it. */
const Line = ({ kind, hit: { id, name, beside } }: { kind: HitKind; hit: Hit }) => {
  const told = kind === 'question' ? `“${shortGot(name ?? '')}”` : isNameless(kind) ? id : (name ?? id)
  const words = kind === 'part' ? KIND_WORDS[beside as keyof typeof KIND_WORDS] : beside
  const rest = [isNameless(kind) ? name : isKeyless(kind) ? undefined : id, words].filter(
    (one) => one !== undefined && one !== told,
  )
  return (
    <li>
      <a href={KINDS[kind].path(id)}>{told}</a>
      {kind === 'title' && (
        <>
          {' '}
          <a href={listPath('/runs', { title: id })}>{W.runsOf}</a>
        </>
      )}
      {rest.length > 0 && <span class="soft"> {rest.join(', ')}</span>}
    </li>
  )
}

const Goals = ({ head, goals }: { head: string; goals: readonly Goal[] }) =>
  goals.length === 0 ? null : (
    <>
      <h2>{head}</h2>
      <ul class="found goals">
        {goals.map(({ href, name }) => (
          <li>
            <a href={href}>{name}</a>
          </li>
        ))}
      </ul>
    </>
  )

const GoalLists = ({ goals }: { goals: readonly Goal[] }) => (
  <>
    <Goals head={W.acts} goals={goals.filter(({ isAct }) => isAct)} />
    <Goals head={W.pages} goals={goals.filter(({ isAct }) => !isAct)} />
  </>
)

const Things = ({ kind, hits, typed }: { kind: HitKind; hits: readonly Hit[]; typed: string }) => {
  const { list } = KINDS[kind]
  if (hits.length === 0) return null
  return (
    <>
      <h2>{W.kinds[kind]}</h2>
      <ul class="found">
        {hits.slice(0, SHOWN).map((hit) => (
          <Line kind={kind} hit={hit} />
        ))}
      </ul>
      {hits.length > SHOWN && (
        <p class="soft">
          {list === undefined ? (
            fill(W.moreAlone, { n: String(SHOWN) })
          ) : (
            <a href={listPath(list, { q: typed })}>{fill(W.more, { list: W.kinds[kind] })}</a>
          )}
        </p>
      )}
    </>
  )
}

type FoundProps = { typed: string; found: Found; goals: readonly Goal[]; counted: string }

const Everything = ({ typed, found, goals, counted }: FoundProps) => (
  <>
    <p role="status">{counted}</p>
    {HIT_KINDS.filter((kind) => found.exact.some((one) => one.kind === kind)).map((kind) => (
      <Things kind={kind} hits={found.hits[kind]} typed={typed} />
    ))}
    <GoalLists goals={goals} />
    {HIT_KINDS.filter((kind) => !found.exact.some((one) => one.kind === kind)).map((kind) => (
      <Things kind={kind} hits={found.hits[kind]} typed={typed} />
    ))}
  </>
)

/** Anything in the shop by what it is called; what one thing alone is called leads straight to it. */
export function findRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/find', async (c) => {
    const asker = who(c)
    const shop = await uses.shop()
    const frame = { title: W.title, demo: options.demo, shopName: shop.name }
    const asked = c.req.query('q')
    const typed = withoutTurns(asked ?? '').trim()
    const [problem] = asked === undefined ? [] : problemsOf(asked)
    if (asked === undefined || problem !== undefined)
      return page(
        c,
        { ...frame, sought: problem === undefined ? '' : typed, isWrong: problem !== undefined },
        <article class="card">
          <h1>{W.title}</h1>
          {problem !== undefined && (
            <section class="summary" role="alert">
              <h2>{W.wrong}</h2>
              <p id="go-wrong">{problemText(problem)}</p>
            </section>
          )}
          <p>{W.lead}</p>
          <GoalLists goals={goalsFor(asker)} />
        </article>,
        problem === undefined ? 200 : STATUS_OF[problem.code],
      )
    const [things, goals] = [await uses.find(typed, SHOWN + 1), goalsNamed(asker, typed)]
    const may = (kind: HitKind) => mayOpen(asker, KINDS[kind].pattern)
    const exact = things.exact.filter(({ kind }) => may(kind))
    const only = [
      ...goals.exact.map(({ href }) => href),
      ...exact.map(({ kind, id }) => KINDS[kind].path(id)),
    ]
    if (only.length === 1 && only[0] !== undefined) return c.redirect(only[0], 303)
    const hits: Record<HitKind, readonly Hit[]> = { ...things.hits }
    for (const kind of HIT_KINDS) if (!may(kind)) hits[kind] = []
    const isCut = HIT_KINDS.some((kind) => hits[kind].length > SHOWN)
    const n =
      goals.found.length + HIT_KINDS.reduce((sum, kind) => sum + Math.min(SHOWN, hits[kind].length), 0)
    const { number } = figuresOf(shop)
    const counts = { count: number(n), typed, most: number(SHOWN) }
    return page(
      c,
      { ...frame, title: `${typed} · ${W.title}`, sought: typed },
      <article class="card">
        <h1>{W.title}</h1>
        {n === 0 ? (
          <>
            <p role="status">{fill(W.none, counts)}</p>
            <p>{W.lead}</p>
          </>
        ) : (
          <Everything
            {...{ typed, goals: goals.found }}
            found={{ hits, exact }}
            counted={
              isCut ? fill(W.cut, counts) : fill(formOf(W.counts, n, new Intl.PluralRules('en')), counts)
            }
          />
        )}
      </article>,
    )
  })
}
