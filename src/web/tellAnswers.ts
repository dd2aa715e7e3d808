import { randomUUID } from 'node:crypto'
import type { Hono } from 'hono'
import { patternOf } from './access/pattern.ts'
import { who } from './access/who.ts'
import type { WebOptions } from './frame.ts'

declare module 'hono' {
  interface ContextVariableMap {
    requestId: string
  }
}

/** RFC 9110, 9.1, and PATCH (RFC 5789). Anybody may send any word as a method, so others are one. */
const METHODS: readonly string[] = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS']

/** Gives each request a mark of its own, which its answer carries, and tells how each ended. Before everything else. */
export function tellAnswers(app: Hono, { onAsked, onAnswered }: WebOptions): void {
  app.use(async (c, next) => {
    const requestId = randomUUID()
    c.set('requestId', requestId)
    const began = performance.now()
    onAsked?.()
    try {
      await next()
      c.header('X-Request-Id', requestId)
    } finally {
      onAnswered?.({
        requestId,
        method: METHODS.includes(c.req.method) ? c.req.method : 'other',
        path: patternOf(c)?.path ?? 'no such path',
        status: c.res.status,
        ms: Math.round((performance.now() - began) * 10) / 10,
        asker: who(c)?.kind ?? 'nobody',
      })
    }
  })
}
