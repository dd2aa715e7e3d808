import type { Context } from 'hono'
import type { FitProgress } from '../uses/gain/keptFit.ts'
import { WHY_EN } from '../words/en/why.ts'
import { fill } from '../words/say.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'

/** A page waits so long for the gain model by itself; then it says what it waits for. */
export const PATIENCE_MS = 1000

const RELOAD_S = 2

/** The model is being fitted: how far it is, and the page again when it is done, also without a script. */
export async function waitingPage(c: Context, { uses, options }: Web, fitting: FitProgress) {
  const shop = await uses.shop()
  const figures = figuresOf(shop)
  const w = WHY_EN.waiting
  const seconds = (ms: number) => figures.number(Math.max(1, Math.round(ms / 1000)))
  const { runs, sinceMs, usualMs } = fitting
  const { pathname, search } = new URL(c.req.url)
  const here = `${pathname}${search}`
  c.header('Refresh', `${RELOAD_S}`)
  return page(
    c,
    { title: w.head, place: 'Questions', demo: options.demo, shopName: shop.name },
    <section class="card">
      <h1>{w.head}</h1>
      <p role="status">{fill(w.says, { runs: figures.number(runs) })}</p>
      {usualMs !== undefined && (
        <progress
          max={Math.max(usualMs, sinceMs) / 1000}
          value={Math.min(sinceMs, usualMs) / 1000}
          aria-label={w.progress}
        />
      )}
      <p class="soft">
        {fill(w.since, { seconds: seconds(sinceMs) })}
        {usualMs !== undefined && ` ${fill(w.usual, { seconds: seconds(usualMs) })}`}
      </p>
      <p>
        <a href={here}>{w.open}</a>
      </p>
    </section>,
  )
}
