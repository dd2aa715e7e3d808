import type { Piece } from '../../words/say.ts'
import { heldTogether } from '../../words/wrap.ts'
import { LIGHT } from './colours.ts'

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Text as HTML, in an element or in a quoted attribute. */
export const escapeHtml = (text: string): string =>
  heldTogether(text).replace(/[&<>"']/g, (c) => ENTITIES[c] ?? c)

/** Longer than any word that people use; German ones reach 27 letters (Wiederherstellungsschlüssel). */
const WORD_MOST = 28

/**
 * A word that would push a table past a phone's edge may part anywhere (zero width spaces, U+200B); all others stay whole,
 * because styles that let words part let short ones part too, as soon as a column is narrow.
 */
export const parted = (text: string): string =>
  text
    .split(/(\s+)/)
    .map((word) => ([...word].length > WORD_MOST ? [...word].join('\u200b') : word))
    .join('')

export const piecesHtml = (pieces: readonly Piece[]): string =>
  pieces.map((p) => (p.strong ? `<b>${escapeHtml(p.text)}</b>` : escapeHtml(p.text))).join('')

/** No height of its own: mail programs give empty cells a line otherwise. */
export const NIL = 'padding:0;font-size:1px;line-height:1px;'

/** Rounded cells need separate borders; a layout table is not read out as a table. */
export const layout = (rows: string, style = '', cls = ''): string =>
  `<table role="presentation" cellpadding="0" cellspacing="0" border="0"${cls ? ` class="${cls}"` : ''} style="border-collapse:separate;border-spacing:0;${style}">${rows}</table>`

/** A block of the letter with the room under it, so that an absent block leaves none. */
export const block = (html: string): string => `<div style="padding:0 0 20px">${html}</div>`

export const h1 = (text: string): string =>
  `<h1 class="t-ink" style="margin:2px 0 0;font-size:24px;line-height:31px;font-weight:700;color:${LIGHT.ink}">${escapeHtml(text)}</h1>`

export const h2 = (text: string): string =>
  `<h2 class="t-ink b-line" style="margin:0 0 6px;padding:16px 0 0;border-top:1px solid ${LIGHT.line};font-size:18px;line-height:24px;font-weight:700;color:${LIGHT.ink}">${escapeHtml(text)}</h2>`

export const h3 = (text: string): string =>
  `<h3 class="t-ink" style="margin:0 0 4px;font-size:16px;line-height:24px;font-weight:700;color:${LIGHT.ink}">${escapeHtml(text)}</h3>`

export const paragraph = (text: string, style = ''): string =>
  `<p style="margin:0 0 10px;${style}">${escapeHtml(text)}</p>`

export const small = (text: string): string =>
  `<p class="t-soft" style="margin:6px 0 0;font-size:14px;line-height:21px;color:${LIGHT.soft}">${escapeHtml(text)}</p>`
