import type { Context } from 'hono'

const BEARER = /^Bearer +(\S+)$/i

/** The key a program sends along (RFC 6750, 2.1); undefined where there is none. */
export const keyIn = (c: Context): string | undefined => BEARER.exec(c.req.header('authorization') ?? '')?.[1]
