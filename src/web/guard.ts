import type { Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { csrf } from 'hono/csrf'
import { secureHeaders } from 'hono/secure-headers'

const shared =
  "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; form-action 'self'"

/** Pages: nothing inline, nothing from elsewhere, never framed. */
export const PAGE_CSP = `${shared}; base-uri 'none'; frame-ancestors 'none'`

/** The message page alone may frame, and only our own preview. */
export const MESSAGE_CSP = `${shared}; frame-src 'self'; base-uri 'none'; frame-ancestors 'none'`

/** A mail carries its style inline, so its preview may; it may run, send and load nothing, and only we may frame it. */
export const PREVIEW_CSP =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox; base-uri 'none'; form-action 'none'; frame-ancestors 'self'"

export const FORM_BYTES = 256 * 1024
export const IMPORT_BYTES = 16 * 1024 * 1024
/** A photo of 5 MB with what a form puts around it; a larger one is refused in words where it is kept. */
export const PHOTO_BYTES = 6 * 1024 * 1024

/** Headers, host, form origin and sizes, before any route. `elsewhere` answers what is not asked of us. A route that set its own policy keeps it. */
export function guard(
  app: Hono,
  tooLarge: (c: Context, limitBytes: number) => Response | Promise<Response>,
  elsewhere?: (c: Context) => Response | Promise<Response> | undefined,
): void {
  app.use(secureHeaders({ xFrameOptions: false }))
  app.use(async (c, next) => {
    await next()
    if (!c.res.headers.has('Content-Security-Policy')) c.header('Content-Security-Policy', PAGE_CSP)
    if (!c.res.headers.has('Cache-Control')) c.header('Cache-Control', 'no-store')
  })
  app.use(async (c, next) => elsewhere?.(c) ?? next())
  app.use(csrf())
  const small = bodyLimit({ maxSize: FORM_BYTES, onError: (c) => tooLarge(c, FORM_BYTES) })
  const large = bodyLimit({ maxSize: IMPORT_BYTES, onError: (c) => tooLarge(c, IMPORT_BYTES) })
  const photo = bodyLimit({ maxSize: PHOTO_BYTES, onError: (c) => tooLarge(c, PHOTO_BYTES) })
  app.use((c, next) => {
    if (c.req.path === '/import') return large(c, next)
    return /^\/(?:o|machines)\/[^/]+\/photos$/.test(c.req.path) ? photo(c, next) : small(c, next)
  })
}
