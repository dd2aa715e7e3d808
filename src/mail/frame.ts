import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import mjml2html from 'mjml'
import { escapeHtml } from './draw/html.ts'

/** What goes into a frame: plain values are escaped; fragments are HTML that we drew ourselves. */
export type Slots = {
  readonly values: Readonly<Record<string, string>>
  readonly fragments: Readonly<Record<string, string>>
}

export type Frame = { readonly fill: (slots: Slots) => string }

type Piece = { readonly text: string } | { readonly slot: string; readonly raw: boolean }

const SLOT = /\{\{\{(\w+)\}\}\}|\{\{(\w+)\}\}/g

const slotsIn = (text: string): readonly string[] => [...text.matchAll(SLOT)].map((m) => m[0]).sort()

/** The frame's text cut at its slots, so that filling is joining and nothing filled in is searched again. */
function cut(html: string): readonly Piece[] {
  const pieces: Piece[] = []
  let at = 0
  for (const m of html.matchAll(SLOT)) {
    pieces.push({ text: html.slice(at, m.index) })
    pieces.push(m[1] === undefined ? { slot: m[2] ?? '', raw: false } : { slot: m[1], raw: true })
    at = m.index + m[0].length
  }
  return [...pieces, { text: html.slice(at) }]
}

/** Addresses that MJML writes for programs to read and never to fetch. */
const NAMESPACES = /xmlns(?::\w)?="[^"]*"/g

/** Words of a frame or fragment that would make a mail program fetch something. */
export const fetches = (html: string): string | undefined =>
  /<img\b|<link\b|<script\b|url\s*\(|@import|\bsrc\s*=|https?:\/\//i.exec(html.replace(NAMESPACES, ''))?.[0]

/**
 * Compiles a frame of `emails/` and checks what MJML does not: it drops a missing include, an unclosed element's text
 * and its slots without an error. Throws when the frame is not whole; that is a fault in our own files.
 */
export async function compileFrame(file: URL): Promise<Frame> {
  const path = fileURLToPath(file)
  const source = await readFile(path, 'utf8')
  const included = [...source.matchAll(/<mj-include path="([^"]+)"/g)].map((m) => new URL(m[1] ?? '', file))
  const parts = await Promise.all(included.map((url) => readFile(url, 'utf8')))
  const { html, errors } = await mjml2html(source, {
    filePath: path,
    ignoreIncludes: false,
    validationLevel: 'strict',
    fonts: {},
  })
  if (errors.length > 0) throw new Error(`${path}: ${errors.map((e) => e.formattedMessage).join('; ')}`)
  return frameOf(html, [source, ...parts].flatMap(slotsIn), path)
}

/** The checks and the filling, apart from the compiler. `wanted` are the slots as the sources write them. */
export function frameOf(html: string, wanted: readonly string[], name: string): Frame {
  if (html.includes('mj-include')) throw new Error(`${name}: an include was dropped`)
  const outside = fetches(html)
  if (outside !== undefined) throw new Error(`${name}: would fetch something: ${outside}`)
  const found = new Set(slotsIn(html))
  const lost = wanted.filter((s) => !found.has(s))
  if (lost.length > 0) throw new Error(`${name}: lost ${lost.join(', ')}`)
  const pieces = cut(html)
  const known = new Set(pieces.flatMap((p) => ('slot' in p ? [p.slot] : [])))
  return {
    fill: ({ values, fragments }) => {
      const unused = [...Object.keys(values), ...Object.keys(fragments)].filter((k) => !known.has(k))
      if (unused.length > 0) throw new Error(`${name}: no slot for ${unused.join(', ')}`)
      return pieces
        .map((p) => {
          if ('text' in p) return p.text
          const value = (p.raw ? fragments : values)[p.slot]
          if (value === undefined) throw new Error(`${name}: nothing for slot ${p.slot}`)
          return p.raw ? value : escapeHtml(value)
        })
        .join('')
    },
  }
}
