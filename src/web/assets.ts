import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Hono } from 'hono'

const TYPES = { css: 'text/css; charset=utf-8', js: 'text/javascript; charset=utf-8', svg: 'image/svg+xml' }

const textOf = (file: string): string => readFileSync(new URL(`assets/${file}`, import.meta.url), 'utf8')

const load = (name: string, type: string, files: readonly string[] = [name]) => {
  const text = files.map(textOf).join('\n')
  const mark = createHash('sha256').update(text).digest('hex').slice(0, 12)
  return { path: `/assets/${name}`, href: `/assets/${name}?v=${mark}`, text, type, etag: `"${mark}"` }
}

/** One sheet for the browser, in this order; later rules win. */
const SHEETS = [
  'base',
  'frame',
  'go',
  'card',
  'verdict',
  'button',
  'table',
  'explain',
  'form',
  'job',
  'access',
  'api',
  'ask',
  'picture',
  'slots',
  'frames',
  'run',
  'pairs',
  'sheet',
  'sell',
  'measure',
  'outbox',
  'plans',
  'round',
  'phone',
  'print',
]

const CSS = load(
  'app.css',
  TYPES.css,
  SHEETS.map((name) => `${name}.css`),
)
const SCRIPT = load('app.js', TYPES.js, ['app.js', 'keys.js'])
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
