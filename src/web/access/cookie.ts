import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { LONGEST_DAYS } from '../../uses/access/openSession.ts'

const NAME = 'stillfits'
const DAY_S = 86_400

/**
 * The cookie of a session (RFC 6265bis, 4.1.3.2): behind TLS it carries the prefix that no other host and no page
 * without TLS can set. No script reads it, and other sites' forms do not send it.
 */
const shape = (secure: boolean) =>
  secure
    ? ({ path: '/', httpOnly: true, sameSite: 'Lax', secure: true, prefix: 'host' } as const)
    : ({ path: '/', httpOnly: true, sameSite: 'Lax' } as const)

export const sessionTokenIn = (c: Context, secure: boolean): string | undefined =>
  secure ? getCookie(c, NAME, 'host') : getCookie(c, NAME)

export const keepSession = (c: Context, secure: boolean, token: string): void =>
  setCookie(c, NAME, token, { ...shape(secure), maxAge: LONGEST_DAYS * DAY_S })

export function dropSession(c: Context, secure: boolean): void {
  deleteCookie(c, NAME, shape(secure))
}
