import type { Context } from 'hono'
import { STATUS_OF } from '../../problem.ts'
import { isProgram, refuseScope, refuseStranger } from '../api/refusals.ts'
import type { Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { isForOwner, ownerTrouble } from '../ownerFrame.tsx'
import { Again, Calm } from '../problem.tsx'
import type { Who } from './who.ts'

const isLook = (c: Context): boolean => c.req.method === 'GET' || c.req.method === 'HEAD'

/** Bodies up to this are kept on the page, so that nothing typed is lost when a session ended meanwhile. */
const KEPT_BYTES = 64 * 1024

async function smallForm(c: Context): Promise<FormData | undefined> {
  const length = Number(c.req.header('content-length') ?? Number.NaN)
  if (!(length <= KEPT_BYTES) || c.req.header('transfer-encoding') !== undefined) return undefined
  return c.req.formData().catch(() => undefined)
}

/** To a stranger: programs are told, a look is led to the sign-in, and what was typed is kept. */
export async function signInFirst(c: Context, web: Web) {
  if (isProgram(c)) return refuseStranger(c)
  const { pathname, search } = new URL(c.req.url)
  if (isLook(c)) {
    const to = `${pathname}${search}`
    return c.redirect(to === '/' ? '/sign-in' : `/sign-in?to=${encodeURIComponent(to)}`, 303)
  }
  const posted = await smallForm(c)
  return page(
    c,
    { title: 'Sign in first', demo: web.options.demo },
    <article class="card slim">
      <h1>Sign in first</h1>
      <p>Nothing was saved, because this browser is not signed in, or no more.</p>
      <p>
        <a href="/sign-in" target="_blank" rel="noopener">
          Sign in in another tab
        </a>
        , then come back to this page.
      </p>
      <Again c={c} posted={posted} />
    </article>,
    401,
  )
}

/** To somebody who is known, and may not. */
export function forOthersPage(c: Context, web: Web, asker: Who) {
  if (isProgram(c)) return refuseScope(c)
  const isDemo = asker.kind === 'demo'
  return page(
    c,
    { title: 'Not for this account', demo: web.options.demo },
    isDemo ? (
      <Calm
        head="There are no accounts in the demo"
        what="The demo has no sign-in, so nothing can be set here."
        next="Your own shop has accounts: start it with npm start."
      />
    ) : (
      <Calm
        head="This is for the owner"
        what="Settings, accounts, keys and imports are the owner’s. Nothing was changed."
        next="Ask the owner, or sign in with the owner’s account."
      />
    ),
    403,
  )
}

/** A route that nobody gave rights to. */
export function unlistedPage(c: Context, web: Web) {
  if (isProgram(c)) return refuseScope(c)
  return page(
    c,
    { title: 'Nobody may use this yet', demo: web.options.demo },
    <Calm
      head="Nobody may use this yet"
      what="This address is not in the table of rights, so it is closed."
      next="Whoever added it puts it into src/web/access/rights.ts."
    />,
    403,
  )
}

/** To an address that asks too often (RFC 6585, 4). */
export function slowDown(c: Context, web: Web, waitSeconds: number) {
  c.header('Retry-After', String(waitSeconds))
  if (isForOwner(c)) return ownerTrouble(c, web, 'slowly', 429)
  const minutes = Math.ceil(waitSeconds / 60)
  return page(
    c,
    { title: 'Too often', demo: web.options.demo },
    <article class="card slim">
      <h1>That was asked too often</h1>
      <p>{`Nothing was saved. Wait ${minutes === 1 ? 'a minute' : `${minutes} minutes`}, then try again.`}</p>
    </article>,
    STATUS_OF['too many'],
  )
}
