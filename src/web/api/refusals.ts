import type { Context } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { type Problem, STATUS_OF, shortGot } from '../../problem.ts'
import { keyIn } from '../access/keyIn.ts'

/** Everything programs ask for stands under it; a change that would break them gets another one. */
export const API_PREFIX = '/api/v1'

/**
 * Whether a program asks: whoever shows a key, and all that is asked for below /api. It is answered in JSON, whatever
 * goes wrong. /api itself is a page, for a look.
 */
export const isProgram = (c: Context): boolean =>
  c.req.path.startsWith('/api/') ||
  (c.req.path === '/api' && !['GET', 'HEAD'].includes(c.req.method)) ||
  keyIn(c) !== undefined

type Refused = { readonly says: string; readonly headers?: Readonly<Record<string, string>> }

const RETRY = { 'Retry-After': 'Seconds to wait (RFC 9110, 10.2.3).' }

/** What each status means that is not what was asked for, as the description tells it. */
export const REFUSED: Readonly<Record<number, Refused>> = {
  400: { says: 'The body is not JSON, or broke off on its way.' },
  401: {
    says: 'No key that holds came along.',
    headers: { 'WWW-Authenticate': 'Bearer (RFC 6750, 3).' },
  },
  403: { says: 'The key has not the scope, or a browser sent this from another site.' },
  404: { says: 'There is no such thing, or no such path.' },
  405: {
    says: 'The path does not answer this method.',
    headers: { Allow: 'The methods it answers (RFC 9110, 10.2.1).' },
  },
  409: { says: 'It is there already, or was changed meanwhile.' },
  413: { says: 'The body is too large.' },
  415: { says: 'The body does not say that it is JSON.' },
  421: { says: 'The host name is none of this shop’s.' },
  422: {
    says: 'Something in the path, the query or the body is not as described: all of it is told at once.',
  },
  429: { says: 'Too many requests in a minute.', headers: RETRY },
  500: { says: 'A fault of ours, with the reference under which the log has it.' },
  503: { says: 'Another program holds the database, or the gain model is being fitted.', headers: RETRY },
  504: { says: 'It took too long and was given up.' },
}

/** So many problems are told at once; a body of 256 kB can have 20,000, and their answer would have megabytes. */
const TOLD_MAX = 100

function told(problems: readonly Problem[]): readonly Problem[] {
  const more = problems.length - TOLD_MAX
  const [first] = problems.slice(TOLD_MAX)
  if (first === undefined) return problems
  const next = `And ${more} more. Put these right first, then send it again.`
  return [...problems.slice(0, TOLD_MAX), { code: first.code, field: 'body', next }]
}

/** When to ask again where the database is held or a fit is under way (RFC 9110, 10.2.3). */
const RETRY_SECONDS = 5

/** The one form of every error; `status` where the code alone does not tell it. */
export const answerProblems = (
  c: Context,
  problems: readonly Problem[],
  status: ContentfulStatusCode = STATUS_OF[problems[0]?.code ?? 'internal'],
): Response => {
  if (status === 503) c.header('Retry-After', String(RETRY_SECONDS))
  const short = told(problems).map((p) => (p.got === undefined ? p : { ...p, got: shortGot(p.got) }))
  return c.json({ problems: short }, status)
}

const refuse = (status: ContentfulStatusCode, problem: Problem) => (c: Context) =>
  answerProblems(c, [problem], status)

/** RFC 9110, 15.5.2 and 11.6.1: says which scheme opens it. */
export const refuseStranger = (c: Context): Response => {
  c.header('WWW-Authenticate', 'Bearer')
  const next = 'Send a key that holds as "Authorization: Bearer KEY". The owner makes keys under Settings.'
  return answerProblems(
    c,
    [{ code: 'missing', field: 'Authorization', allowed: 'Bearer, with a key', next }],
    401,
  )
}

/** Known, and not allowed to do that (RFC 9110, 15.5.4). */
export const refuseScope = refuse(403, {
  code: 'not allowed',
  field: 'Authorization',
  next: 'This key may not do that. Ask the owner for one with the scope that this route names.',
})

/** A browser's request that another site may have sent. */
export const refuseElsewhereSent = refuse(403, {
  code: 'not allowed',
  field: 'Origin',
  allowed: 'our own pages, or a key in Authorization',
  next: 'This did not come from our own page, so nothing was done. Send it with a key instead.',
})

export const refuseUnknownPath = (c: Context): Response =>
  answerProblems(
    c,
    [
      {
        code: 'not found',
        field: 'path',
        got: c.req.path,
        next: `There is nothing here. ${API_PREFIX}/openapi.json lists every path.`,
      },
    ],
    404,
  )

export const refuseMethod = (c: Context, allowed: readonly string[]): Response => {
  c.header('Allow', allowed.join(', '))
  const methods = allowed.join(', ')
  const next = `This path does not answer ${c.req.method}. Use one of: ${methods}.`
  return answerProblems(
    c,
    [{ code: 'not allowed', field: 'method', got: c.req.method, allowed: methods, next }],
    405,
  )
}

export const refuseTooLarge = (c: Context, limitBytes: number): Response => {
  const allowed = `up to ${Math.floor(limitBytes / 1024)} kB`
  const next = `That is too much at once. Send ${allowed}.`
  return answerProblems(c, [{ code: 'not allowed', field: 'body', allowed, next }], 413)
}

export const refuseContentType = (c: Context): Response => {
  const allowed = 'application/json'
  const next = 'Send JSON, and say so with "Content-Type: application/json".'
  const got = c.req.header('Content-Type')
  const problem: Problem = { code: 'not allowed', field: 'Content-Type', allowed, next }
  return answerProblems(c, [got === undefined ? problem : { ...problem, got }], 415)
}

export const refuseUnreadable = refuse(400, {
  code: 'unreadable',
  field: 'body',
  allowed: 'JSON (RFC 8259)',
  next: 'This is not JSON, or it broke off on its way. Nothing was done. Send it again, whole.',
})

export const refuseTooSlow = refuse(504, {
  code: 'busy',
  field: 'request',
  next: 'This took too long and was given up. Ask for less, or try again later.',
})

/** RFC 9110, 15.5.20. */
export const refuseHost = refuse(421, {
  code: 'not allowed',
  field: 'Host',
  next: 'This is not an address of this shop. Use the one that the program printed, or add it to STILLFITS_HOSTS.',
})

/** RFC 6585, 4. */
export const refuseHaste = (c: Context, waitSeconds: number, allowed: string): Response => {
  c.header('Retry-After', String(waitSeconds))
  const next = `That was too many requests. Wait ${waitSeconds} s, then go on.`
  return answerProblems(c, [{ code: 'too many', field: 'rate', allowed, next }], 429)
}
