import type { Context, MiddlewareHandler } from 'hono'
import type { Web } from '../frame.ts'
import { isForOwner, nowherePage } from '../ownerFrame.tsx'
import { sessionTokenIn } from './cookie.ts'
import { keyIn } from './keyIn.ts'
import { patternOf } from './pattern.ts'
import { addressOf, isSecure } from './peer.ts'
import { forOthersPage, signInFirst, slowDown, unlistedPage } from './refusals.tsx'
import { type Row, rowOf } from './rights.ts'
import { triesWithin } from './tries.ts'
import { mayDo, type Who } from './who.ts'

/** Who is asking: the holder of a key, whoever signed in in this browser, or the one everybody is. */
async function whoAsks(c: Context, { uses, options }: Web): Promise<Who | undefined> {
  if (options.everybodyIs !== undefined) return options.everybodyIs
  const key = keyIn(c)
  if (key !== undefined) {
    const program = await uses.tokenOf(key)
    return program && { kind: 'token', ...program }
  }
  const token = sessionTokenIn(c, isSecure(c, options.proxies ?? []))
  const signedIn = token === undefined ? undefined : await uses.sessionOf(token)
  return signedIn && { kind: signedIn.role, name: signedIn.name, accountId: signedIn.accountId }
}

const SPAN_MS = 10 * 60_000
/** Shop policy: how many links that lead nowhere one address may try in ten minutes. */
const DEAD_LINKS = 20

/** Lets through only what the table of rights allows; a route that is not in it is nobody's. */
export function gate(web: Web): MiddlewareHandler {
  const dead = triesWithin(SPAN_MS, DEAD_LINKS, () => Date.parse(web.uses.now()))

  /**
   * An owner's link, looked at before anything that was sent with it. One that holds is always served, whatever else
   * came from its address: a whole household or a provider's customers may share that. Only who tries links that lead
   * nowhere waits.
   */
  const throughLink: MiddlewareHandler = async (c, next) => {
    if (await web.uses.linkHolds(c.req.path.split('/')[2] ?? '')) return next()
    const address = addressOf(c, web.options.proxies ?? [])
    const wait = dead.wait(address)
    if (wait > 0) return slowDown(c, web, wait)
    dead.count(address)
    return nowherePage(c, web)
  }

  return async (c, next) => {
    const pattern = patternOf(c)
    const row = pattern && rowOf(pattern.method, pattern.path)
    if (row !== undefined && isFile(row)) return next()
    const asker = await whoAsks(c, web)
    c.set('who', asker)
    if (row?.may === 'owner link') return throughLink(c, next)
    if (row !== undefined && mayDo(asker, row)) return next()
    if (pattern === undefined && isForOwner(c)) return nowherePage(c, web)
    if (asker === undefined) return signInFirst(c, web)
    // Nothing is there, or not by that method: whoever is in is told so where such answers are made.
    if (pattern === undefined) return next()
    return row === undefined ? unlistedPage(c, web) : forOthersPage(c, web, asker)
  }
}

/** Style, script and mark: the same for everybody, so nobody has to be looked up. */
const isFile = ({ may, path }: Row): boolean =>
  may === 'public' && (path.startsWith('/assets/') || path === '/favicon.ico')
