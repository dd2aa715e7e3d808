import type { Hono } from 'hono'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import { fill } from '../words/say.ts'
import { param, type Web } from './frame.ts'
import { ownerPage } from './ownerFrame.tsx'

const w = OUTBOX_EN.unsubscribe

/**
 * The way out of offers, behind a link of a mail. RFC 8058, 3.1 and 3.2: a POST alone ends them, without cookies, sign-in
 * or a further step, and leads nowhere else; looking ends nothing, because programs follow links before people do.
 */
export function unsubscribeRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/u/:token', async (c) => {
    const view = await uses.optOutView(param(c, 'token'))
    return ownerPage(
      c,
      view.ok ? w.title : w.goneHead,
      options.demo,
      view.ok ? (
        <article class="card slim">
          <h1>{w.head}</h1>
          <p>{fill(w.says, { shop: view.value.shopName, name: view.value.customerName })}</p>
          <form method="post" action={`/u/${encodeURIComponent(param(c, 'token'))}`}>
            <button class="button" type="submit">
              {w.button}
            </button>
          </form>
          <p class="soft">{w.still}</p>
        </article>
      ) : (
        <Gone />
      ),
      view.ok ? 200 : 404,
    )
  })

  app.post('/u/:token', async (c) => {
    const done = await uses.optOut(param(c, 'token'))
    return ownerPage(
      c,
      done.ok ? w.doneHead : w.goneHead,
      options.demo,
      done.ok ? (
        <article class="card slim">
          <h1>{w.doneHead}</h1>
          <p role="status">{fill(w.done, { shop: done.value.shopName })}</p>
          <p class="soft">{w.still}</p>
        </article>
      ) : (
        <Gone />
      ),
      done.ok ? 200 : 404,
    )
  })
}

const Gone = () => (
  <article class="card slim">
    <h1>{w.goneHead}</h1>
    <p>{w.gone}</p>
  </article>
)
