import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Hono } from 'hono'

const TYPES = { css: 'text/css; charset=utf-8', js: 'text/javascript; charset=utf-8', svg: 'image/svg+xml' }

const load = (name: string, type: string) => {
  const text = readFileSync(new URL(`assets/${name}`, import.meta.url), 'utf8')
  const mark = createHash('sha256').update(text).digest('hex').slice(0, 12)
  return { path: `/assets/${name}`, href: `/assets/${name}?v=${mark}`, text, type, etag: `"${mark}"` }
}

const CSS = load('app.css', TYPES.css)
const SCRIPT = load('app.js', TYPES.js)
const ICON = load('icon.svg', TYPES.svg)

/** Addresses with the content's mark in them, so that a browser may keep them for good. */
export const assets = { css: CSS.href, script: SCRIPT.href, icon: ICON.href }

const YEAR_IN_SECONDS = 31_536_000

export function assetRoutes(app: Hono): void {
  for (const asset of [CSS, SCRIPT, ICON, { ...ICON, path: '/favicon.ico' }]) {
    app.get(asset.path, (c) => {
      const kept = c.req.query('v') !== undefined
      const headers = {
        'Content-Type': asset.type,
        'Cache-Control': kept ? `public, max-age=${YEAR_IN_SECONDS}, immutable` : 'no-cache',
        ETag: asset.etag,
      }
      if (c.req.header('if-none-match') === asset.etag) return c.body(null, 304, headers)
      return c.body(asset.text, 200, headers)
    })
  }
}
