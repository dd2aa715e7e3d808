import type { Context, Hono } from 'hono'
import { REACH_EN } from '../words/en/reach.ts'
import { fill } from '../words/say.ts'
import { figuresOf, param, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { comesAgain, ForgetWork, WorkStanding } from './longWork.tsx'
import { LookShown } from './platformsShown.tsx'
import { problemPage } from './problem.tsx'

const W = REACH_EN.result

export const pathToLook = (id: string): string => `/platforms/${encodeURIComponent(id)}`

export function platformsResultRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/platforms/:id', async (c: Context) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.look(param(c, 'id'))])
    if (!found.ok) return problemPage(c, web, found.problems, 'Platforms')
    const view = found.value
    const figures = figuresOf(shop)
    const { id, askedAt, name = REACH_EN.list.unnamed } = view.work
    const work = { work: view.work, path: pathToLook(id) }
    comesAgain(c, view.work)
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
        <WorkStanding
          {...work}
          progress={view.progress}
          words={{ ...W, progress: REACH_EN.progress }}
          figures={figures}
        />
        {view.look !== undefined && (
          <LookShown view={view} look={view.look} figures={figures} currency={shop.policy.currency} />
        )}
        <ForgetWork {...work} />
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
