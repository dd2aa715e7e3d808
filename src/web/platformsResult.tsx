import type { Context, Hono } from 'hono'
import type { LookView } from '../uses/reach/looks.ts'
import { REACH_EN } from '../words/en/reach.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { figuresOf, param, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { LookShown } from './platformsShown.tsx'
import { problemPage } from './problem.tsx'

const W = REACH_EN.result
const RELOAD_S = 2

export const pathToLook = (id: string): string => `/platforms/${encodeURIComponent(id)}`

const UnderWay = ({ view: { work, progress }, figures }: { view: LookView; figures: Figures }) => {
  const isCounting = progress !== undefined && progress.of > 0
  const { number } = figures
  return (
    <section class="card">
      <h2>{W.waiting}</h2>
      <p role="status">
        {isCounting
          ? fill(REACH_EN.progress, { done: number(progress.done), of: number(progress.of) })
          : work.state === 'waiting'
            ? REACH_EN.states.waiting
            : W.loading}
      </p>
      <progress max={Math.max(1, progress?.of ?? 1)} value={progress?.done ?? 0} aria-label={W.waiting} />
      <div class="line">
        <a href={pathToLook(work.id)}>{W.look}</a>
        <form method="post" action={`${pathToLook(work.id)}/call-off`}>
          <button class="button quiet" type="submit">
            {W.callOff}
          </button>
        </form>
      </div>
    </section>
  )
}

/** Opened first, so that one slip of a thumb takes nothing away. */
const Forget = ({ id }: { id: string }) => (
  <div class="actions">
    <details>
      <summary>{W.forget}</summary>
      <form method="post" action={`${pathToLook(id)}/forget`}>
        <p>{W.forgetSure}</p>
        <button class="button quiet" type="submit">
          {W.forgetYes}
        </button>
      </form>
    </details>
  </div>
)

export function platformsResultRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/platforms/:id', async (c: Context) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.look(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Platforms')
    const view = found.value
    const figures = figuresOf(shop)
    const { state, id, askedAt, name = REACH_EN.list.unnamed } = view.work
    const isOpen = state === 'waiting' || state === 'under way'
    if (isOpen) c.header('Refresh', String(RELOAD_S))
    return page(
      c,
      { title: name, place: 'Platforms', demo: options.demo, shopName: shop.name },
      <>
        <div class="head">
          <h1>{name}</h1>
          <p class="line">
            <span class="soft">{fill(W.asOf, { at: figures.dateTime(askedAt) })}</span>
            <a href="/platforms">{W.back}</a>
          </p>
        </div>
        {isOpen && <UnderWay view={view} figures={figures} />}
        {state === 'called off' && <p class="card">{W.calledOff}</p>}
        {state === 'failed' && <p class="card wrong">{W.failed}</p>}
        {view.look !== undefined && (
          <LookShown view={view} look={view.look} figures={figures} currency={shop.policy.currency} />
        )}
        {!isOpen && <Forget id={id} />}
      </>,
    )
  })

  app.post('/platforms/:id/call-off', async (c) => {
    await uses.callOffLook(param(c, 'id'))
    return c.redirect(pathToLook(param(c, 'id')), 303)
  })
  app.post('/platforms/:id/forget', async (c) => {
    const gone = await uses.forgetLook(param(c, 'id'))
    if (!gone.ok) return problemPage(c, web, gone.problems, 'Platforms')
    return c.redirect('/platforms', 303)
  })
}
