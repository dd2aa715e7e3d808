import type { Context, Hono, MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { HTTPException } from 'hono/http-exception'
import { secureHeaders } from 'hono/secure-headers'
import { timeout } from 'hono/timeout'
import { LOG_MAX_BYTES } from '../core/frames/log.ts'
import { isolatedPage } from '../words/isolate.ts'
import { keyIn } from './access/keyIn.ts'
import { isSecure, originOf } from './access/peer.ts'

const shared =
  "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; form-action 'self'"

/** Pages: nothing inline, nothing from elsewhere, never framed. */
export const PAGE_CSP = `${shared}; base-uri 'none'; frame-ancestors 'none'`

/** While mails go out, their list asks for itself again. */
export const FOLLOWING_CSP = `${shared}; connect-src 'self'; base-uri 'none'; frame-ancestors 'none'`

/** The message page alone may frame, and only our own preview. */
export const MESSAGE_CSP = `${shared}; frame-src 'self'; base-uri 'none'; frame-ancestors 'none'`

/** A mail carries its style inline, so its preview may; it may run, send and load nothing, and only we may frame it. */
export const PREVIEW_CSP =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox; base-uri 'none'; form-action 'none'; frame-ancestors 'self'"

export const FORM_BYTES = 256 * 1024
export const IMPORT_BYTES = 16 * 1024 * 1024
/** A photo of 5 MB with what a form puts around it; a larger one is refused in words where it is kept. */
export const PHOTO_BYTES = 6 * 1024 * 1024

/** Three such photos beside an owner's question; a larger one is refused in words, with what was typed kept. */
export const QUESTION_PHOTOS_BYTES = 3 * PHOTO_BYTES

/** A firmware table as text or file, with what a form puts around it (input/firmwareBytes has the limit of the table). */
export const READING_FORM_BYTES = 5 * 1024 * 1024

/** Several frame-time logs at once; each is held to its own limit besides. */
export const LOG_FORM_BYTES = 2 * LOG_MAX_BYTES

/** How long an answer may take; then the browser is told, and not left waiting. */
export const ANSWER_MS = 30_000
export const IMPORT_MS = 180_000

/** What no page of ours uses (W3C Permissions Policy, 9.1): nobody can turn it on from within one. */
const NOT_USED = {
  ...{
    camera: [],
    microphone: [],
    geolocation: [],
    payment: [],
    usb: [],
    bluetooth: [],
    serial: [],
    hid: [],
  },
  ...{ midi: [], fullscreen: [], displayCapture: [], screenWakeLock: [], publickeyCredentialsGet: [] },
}

const HEADERS = {
  xFrameOptions: false,
  strictTransportSecurity: false,
  permissionsPolicy: NOT_USED,
  // Nothing to other sites, so a link of an owner stays here. With `no-referrer` browsers would send our own forms with
  // "Origin: null" (Fetch Standard, 3.2), and without TLS nothing else tells where a form comes from.
  referrerPolicy: 'same-origin',
} as const

/** RFC 6797, 6.1: only of use, and only to be sent (7.2), over TLS. Other hosts of the same name are not ours to bind. */
const ONLY_TLS = 'max-age=31536000'

const isLook = (c: Context): boolean => ['GET', 'HEAD', 'OPTIONS'].includes(c.req.method)

/** Mail programs post it without cookies and without an origin (RFC 8058, 3.2); it is guarded by the secret in its address. */
const isOneClick = (c: Context): boolean => /^\/u\/[^/]+$/.test(c.req.path)

/**
 * Whether another site's page may have sent this: browsers send cookies along with it, so it must name our own origin
 * (Fetch Metadata; Fetch Standard, 3.2). Whoever shows a key is no browser that was tricked: no page can add one unasked.
 */
function isFromElsewhere(c: Context, proxies: readonly string[]): boolean {
  if (isLook(c) || keyIn(c) !== undefined || isOneClick(c)) return false
  return c.req.header('sec-fetch-site') !== 'same-origin' && c.req.header('origin') !== originOf(c, proxies)
}

/** A frame-time log is streamed: only its declared length is looked at here, and its bytes are counted as they come in. */
const isLogUpload = (c: Context): boolean => c.req.method === 'POST' && c.req.path === '/runs/log'
const declaredBytes = (c: Context): number => Number(c.req.header('content-length') ?? 0)

/** Only such a form can carry pictures; a question sent as plain fields is held to their size. */
const isQuestionWithPhotos = (c: Context): boolean =>
  /^\/o\/[^/]+\/questions$/.test(c.req.path) &&
  (c.req.header('content-type') ?? '').startsWith('multipart/form-data')

/** By its declared length; what declares none is counted as it comes in. */
export const arePhotosTooLarge = (c: Context): boolean =>
  isQuestionWithPhotos(c) && declaredBytes(c) > QUESTION_PHOTOS_BYTES

export type Guards = {
  readonly tooLarge: (c: Context, limitBytes: number) => Response | Promise<Response>
  /** Answers what is not asked of us. */
  readonly elsewhere?: (c: Context) => Response | Promise<Response> | undefined
  /** Answers those who may not; after the headers, before any body is read. */
  readonly gate: MiddlewareHandler
  readonly proxies: readonly string[]
}

/**
 * Headers, directions of text, host, form origin, time, rights and sizes, around any route. A route that set its own
 * policy keeps it.
 */
export function guard(app: Hono, { tooLarge, elsewhere, gate, proxies }: Guards): void {
  app.use(secureHeaders(HEADERS))
  app.use(async (c, next) => {
    await next()
    if (!c.res.headers.has('Content-Security-Policy')) c.header('Content-Security-Policy', PAGE_CSP)
    if (!c.res.headers.has('Cache-Control')) c.header('Cache-Control', 'no-store')
    if ((c.res.headers.get('Content-Type') ?? '').startsWith('text/html'))
      c.res = new Response(isolatedPage(await c.res.text()), c.res)
    // What was not read is not read any more; on the same connection it would be taken for the next request.
    if (c.res.status === 413) c.header('Connection', 'close')
    if (isSecure(c, proxies)) c.header('Strict-Transport-Security', ONLY_TLS)
  })
  app.use(async (c, next) => elsewhere?.(c) ?? next())
  app.use(async (c, next) => {
    if (isFromElsewhere(c, proxies)) throw new HTTPException(403)
    await next()
  })
  const [usual, long] = [timeout(ANSWER_MS), timeout(IMPORT_MS)]
  app.use((c, next) => (c.req.path === '/import' || isLogUpload(c) ? long(c, next) : usual(c, next)))
  app.use(gate)
  const small = bodyLimit({ maxSize: FORM_BYTES, onError: (c) => tooLarge(c, FORM_BYTES) })
  const large = bodyLimit({ maxSize: IMPORT_BYTES, onError: (c) => tooLarge(c, IMPORT_BYTES) })
  const table = bodyLimit({ maxSize: READING_FORM_BYTES, onError: (c) => tooLarge(c, READING_FORM_BYTES) })
  const log: MiddlewareHandler = async (c, next) =>
    declaredBytes(c) > LOG_FORM_BYTES ? tooLarge(c, LOG_FORM_BYTES) : await next()
  const photo = bodyLimit({ maxSize: PHOTO_BYTES, onError: (c) => tooLarge(c, PHOTO_BYTES) })
  const asked = bodyLimit({
    maxSize: QUESTION_PHOTOS_BYTES,
    onError: (c) => tooLarge(c, QUESTION_PHOTOS_BYTES),
  })
  // Its page reads what was typed and lets the photos go; nobody types a question twice.
  const question: MiddlewareHandler = (c, next) => (arePhotosTooLarge(c) ? next() : asked(c, next))
  app.use((c, next) => {
    if (isLogUpload(c)) return log(c, next)
    if (c.req.path === '/import') return large(c, next)
    if (/^\/(?:(?:machines|o)\/[^/]+\/)?reading(?:\/(?:accept|send))?$/.test(c.req.path))
      return table(c, next)
    if (isQuestionWithPhotos(c)) return question(c, next)
    return /^\/(?:o|machines)\/[^/]+\/photos$/.test(c.req.path) ? photo(c, next) : small(c, next)
  })
}
