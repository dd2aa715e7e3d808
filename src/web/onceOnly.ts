import { createHash } from 'node:crypto'
import type { Context, MiddlewareHandler } from 'hono'
import { arePhotosTooLarge } from './guard.ts'
import { ONCE } from './onceKey.tsx'
import type { WebUses } from './webUses.ts'

/** How many sent forms are remembered; a second press comes within seconds, and a back button within an evening. */
const REMEMBERED_MOST = 1000

/** Where a sent form led to; undefined where nothing was done, or what was done has no page of its own. */
type Outcome = Promise<string | undefined>

/**
 * What was sent, in one mark: the address, every field and every file. The same form with other words in it is another
 * one, because somebody went back and changed it. Undefined for a form without a key, or for what is no form.
 */
async function markOf(c: Context): Promise<string | undefined> {
  const form = await c.req.formData().catch(() => undefined)
  if (form === undefined || typeof form.get(ONCE) !== 'string') return undefined
  const mark = createHash('sha256').update(JSON.stringify(c.req.path))
  for (const [name, value] of form.entries()) {
    mark.update(JSON.stringify([name, typeof value === 'string' ? value : value.name]))
    if (typeof value !== 'string') mark.update(new Uint8Array(await value.arrayBuffer()))
  }
  return mark.digest('base64')
}

/** The secret piece of an owner's address is in no row: whoever reads the database has no link by it. */
const HIDDEN = ':link'
const secretOf = (c: Context): string | undefined => /^\/o\/([^/]+)/.exec(c.req.path)?.[1]
const withoutSecret = (c: Context, to: string): string => to.replaceAll(secretOf(c) ?? HIDDEN, HIDDEN)
const withSecret = (c: Context, to: string): string => to.replaceAll(HIDDEN, secretOf(c) ?? HIDDEN)

/** Uploads that are read as they come, or that change nothing when they come again; they are not read here. */
const STREAMED = /^\/(?:runs\/log|import)$/

const isForm = (c: Context): boolean =>
  c.req.method === 'POST' &&
  !STREAMED.test(c.req.path) &&
  !arePhotosTooLarge(c) &&
  /^(?:application\/x-www-form-urlencoded|multipart\/form-data)\b/i.test(c.req.header('content-type') ?? '')

/**
 * A form that was sent twice (a second tap, a reload, a try again after a slow answer) is done once, and both lead to
 * the same page; also while the first is still being done. A form in which something was wrong did nothing, so it can
 * be sent again. What was done is remembered for a month, across a restart too.
 */
export function onceOnly({
  formLedTo,
  rememberForm,
}: Pick<WebUses, 'formLedTo' | 'rememberForm'>): MiddlewareHandler {
  const sent = new Map<string, Outcome>()
  return async (c, next) => {
    const mark = isForm(c) ? await markOf(c) : undefined
    if (mark === undefined) return next()
    for (let before = sent.get(mark); before !== undefined; before = sent.get(mark)) {
      const to = await before
      if (to !== undefined) return c.redirect(to, 303)
    }
    let end: (to: string | undefined) => void = () => {}
    sent.set(mark, new Promise((resolve) => (end = resolve)))
    const earlier = await formLedTo(mark).catch(() => undefined)
    if (earlier !== undefined) {
      const back = withSecret(c, earlier)
      end(back)
      return c.redirect(back, 303)
    }
    const oldest = sent.size > REMEMBERED_MOST ? sent.keys().next().value : undefined
    if (oldest !== undefined) sent.delete(oldest)
    let to: string | undefined
    try {
      await next()
      to = c.res.status === 303 ? (c.res.headers.get('location') ?? undefined) : undefined
    } finally {
      if (to === undefined) sent.delete(mark)
      // It is done; that it cannot be written down must not undo it.
      else await rememberForm(mark, withoutSecret(c, to)).catch(() => {})
      end(to)
    }
  }
}
