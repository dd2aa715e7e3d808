import type { SaleWords } from '../core/sale/sale.ts'
import type { LimitsSheet } from '../core/sheet/sheet.ts'
import type { Figures } from './figures.ts'
import { greetingFor } from './greeting.ts'
import { saySheet } from './limitsSheet.ts'
import { curly, fill, formOf, oneLine, paragraphsOf } from './say.ts'
import { type Tables, wordsIn } from './tables.ts'

type Words = Tables['saleLetter']

export type SaleLetter = { readonly subject: string; readonly text: string }

/** The most that a message names of one kind; the sheet has all. */
const MOST = 3

/**
 * The message to a buyer, as a text for mail or chat: what the sheet says in short, the builder's own words around it.
 * `link` is the owner's page, where one was made.
 */
export function saleLetter(
  sheet: LimitsSheet,
  {
    shop,
    ownerName,
    words = {},
    link,
  }: {
    readonly shop: { readonly name: string; readonly email: string; readonly builder: string }
    readonly ownerName?: string | undefined
    readonly words?: SaleWords | undefined
    readonly link?: string | undefined
  },
  figures: Figures,
): SaleLetter {
  const w = wordsIn(figures.language).saleLetter
  const plurals = new Intl.PluralRules(figures.language)
  const said = saySheet(sheet, { name: shop.name, contact: shop.email }, figures)
  const tag = oneLine(sheet.tag)
  const best = said.next.kinds.flatMap(({ head, best: parts }) =>
    parts.slice(0, 1).map(({ text }) => fill(w.nextRow, { kind: head, text })),
  )
  const never = said.never.groups.flatMap(({ rows }) => rows)
  // What follows the parts in that list is the firmware.
  const parts = said.inside.rows.slice(0, sheet.inside.length).map(({ text }) => text)
  const unknown = said.unknown.rows.map(({ label }) => label)
  const blocks = [
    greetingFor(ownerName, { plain: w.hello, named: w.helloNamed }),
    fill(w.ready, { tag }),
    ...paragraphsOf(words.opening),
    ...(sheet.inside.length === 0 ? [] : [fill(w.inside, { parts: parts.join(', ') })]),
    ...block(
      w.ran,
      said.measured.rows.map(({ game, setting, average }) => fill(w.ranRow, { game, setting, average })),
    ),
    ...block(w.next, best.slice(0, MOST)),
    ...block(
      w.never,
      never.map((text) => row(w, text)),
    ),
    ...(unknown.length === 0
      ? []
      : [
          fill(formOf(w.unknown, unknown.length, plurals), {
            n: figures.number(unknown.length),
            what: unknown.join(', '),
          }),
        ]),
    ...block(
      w.cautions,
      said.cautions.rows.map((text) => row(w, text)),
    ),
    link === undefined ? w.sheet : fill(w.link, { link }),
    ...paragraphsOf(words.closing),
    fill(w.sign, { builder: oneLine(shop.builder), shop: oneLine(shop.name) }).replace(/^, /, ''),
  ]
  return {
    subject: oneLine(words.subject ?? fill(w.subject, { tag })),
    text: blocks.map(curly).join('\n\n'),
  }
}

const row = (w: Words, text: string): string => fill(w.row, { text })
const block = (head: string, rows: readonly string[]): string[] =>
  rows.length === 0 ? [] : [[head, ...rows].join('\n')]
