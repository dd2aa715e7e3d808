import type { Context } from 'hono'
import type { Problem } from '../problem.ts'
import { isBeingRanked, isBeingWorkedOut } from '../uses/answerQuestion.ts'
import type { FitProgress } from '../uses/gain/keptFit.ts'
import { WHY_EN } from '../words/en/why.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Again, postedTo, problemPage } from './problem.tsx'

/** A page that is nothing without the gain model waits so long for it; then it says what it waits for. */
export const PATIENCE_MS = 500

const W = WHY_EN.waiting

/** Soon at first; a fit that takes long is not asked after as often. */
const RELOAD_S = { least: 2, most: 10 }
const SHARE = 0.25

const waitSeconds = (fitting: FitProgress | undefined): number =>
  Math.min(RELOAD_S.most, Math.max(RELOAD_S.least, Math.round((SHARE * (fitting?.sinceMs ?? 0)) / 1000)))

/** Lets the page come again by itself, also without a script. */
export const comesAgain = (c: Context, fitting: FitProgress): void =>
  c.header('Refresh', String(waitSeconds(fitting)))

/** How far a fit is. */
export const Progress = ({ of, figures }: { of: FitProgress; figures: Figures }) => {
  const { runs, sinceMs, usualMs } = of
  const seconds = (ms: number) => figures.number(Math.max(1, Math.round(ms / 1000)))
  return (
    <>
      {usualMs !== undefined && (
        <progress
          max={Math.max(usualMs, sinceMs) / 1000}
          value={Math.min(sinceMs, usualMs) / 1000}
          aria-label={W.progress}
        />
      )}
      <p class="soft">
        {fill(W.since, { runs: figures.number(runs), seconds: seconds(sinceMs) })}
        {usualMs !== undefined && ` ${fill(W.usual, { seconds: seconds(usualMs) })}`}
      </p>
    </>
  )
}

/** Stands over an answer whose estimates are still being worked out. */
export const BeingComputed = ({ of, figures }: { of: FitProgress; figures: Figures }) => (
  <section class="nothing" aria-label={W.head}>
    <p role="status">{W.soFar}</p>
    <Progress of={of} figures={figures} />
  </section>
)

/**
 * The model is being fitted: how far it is. A page that was asked for comes again by itself; a form that was sent did
 * nothing, and stands here to be sent again with one press, because a browser sends none by itself.
 */
export async function waitingPage(
  c: Context,
  { uses, options }: Web,
  fitting: FitProgress | undefined,
  says: string = W.says,
) {
  const shop = await uses.shop()
  const figures = figuresOf(shop)
  const isSent = c.req.method === 'POST'
  c.header(isSent ? 'Retry-After' : 'Refresh', String(waitSeconds(fitting)))
  return page(
    c,
    { title: W.head, place: 'Questions', demo: options.demo, shopName: shop.name },
    <section class="card">
      <h1>{W.head}</h1>
      <p role="status">{isSent ? W.notYet : says}</p>
      {fitting !== undefined && <Progress of={fitting} figures={figures} />}
      <Again c={c} posted={await postedTo(c)} says={isSent ? W.sendAgain : W.open} />
    </section>,
    isSent ? 503 : 200,
  )
}

/** What stood in the way: where that is a fit, how far it is. */
export async function stopped(c: Context, web: Web, problems: readonly Problem[]) {
  if (isBeingRanked(problems)) return waitingPage(c, web, undefined, W.ranking)
  if (isBeingWorkedOut(problems)) return waitingPage(c, web, await web.uses.fitUnderWay(0))
  return problemPage(c, web, problems, 'Questions')
}
