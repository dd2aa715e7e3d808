import type { Context } from 'hono'
import { getCookie } from 'hono/cookie'

/** Holds no secret and nothing about anybody. */
export const KEYS_COOKIE = 'stillfits-keys'

/** Whether single keys do something in this browser: until somebody switches them off. */
export const keysAreOn = (c: Context): boolean => getCookie(c, KEYS_COOKIE) !== 'off'
