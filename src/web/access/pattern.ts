import type { Context } from 'hono'
import { matchedRoutes } from 'hono/route'

/** The registered pattern that answers; undefined when none does. Middleware is registered for all methods. */
export const patternOf = (c: Context): { readonly method: string; readonly path: string } | undefined =>
  matchedRoutes(c).find((route) => route.method !== 'ALL')
