import type { SaleWords } from '../core/sale/sale.ts'
import type { LimitsSheet } from '../core/sheet/sheet.ts'
import { PREHEADER_MOST } from './answer/lead.ts'
import type { Figures } from './figures.ts'
import { glosser } from './gloss.ts'
import { greetingFor } from './greeting.ts'
import { type SheetSaid, saySheet } from './limitsSheet.ts'
import { fill, oneLine, paragraphsOf } from './say.ts'
import { type Tables, wordsIn } from './tables.ts'
import { plainSpaces } from './wrap.ts'

/** The limits sheet as a mail: plain data in reading order, every figure formatted. HTML and text are made from it. */
export type SheetMail = {
  /** BCP 47 tag of the words. */
  readonly lang: string
  readonly subject: string
  readonly preheader: string
  readonly shopName: string
  readonly masthead: string
  readonly greeting: string
  readonly ready: string
  readonly opening: readonly string[]
  readonly said: SheetSaid
  readonly reply: {
    readonly words: string
    readonly href: string
    readonly note: string
    /** In place of button and note, where there is only text. */
    readonly text: string
  }
  readonly closing: readonly string[]
  readonly sign: readonly string[]
  readonly foot: {
    readonly why: string
    /** Not in the text part, which cannot load anything. */
    readonly loads: string
    readonly who: readonly string[]
  }
}

export type SheetMailTo = {
  readonly shop: {
    readonly name: string
    readonly email: string
    readonly builder: string
    readonly address: string
  }
  readonly ownerName?: string | undefined
  /** The builder's own words; they are never rewritten. */
  readonly words?: SaleWords | undefined
  /** The owner's page, where a link was made. */
  readonly link?: string | undefined
}

export function sheetMail(
  sheet: LimitsSheet,
  { shop, ownerName, words = {}, link }: SheetMailTo,
  figures: Figures,
): SheetMail {
  const { sheetMail: w, saleLetter: letter } = wordsIn(figures.language)
  const said = glossed(saySheet(sheet, { name: shop.name, contact: shop.email }, figures), figures)
  const tag = oneLine(sheet.tag)
  const shopName = oneLine(shop.name)
  return {
    lang: w.lang,
    subject: plainSpaces(oneLine(words.subject ?? fill(letter.subject, { tag }))),
    preheader: preheaderOf(sheet, w),
    shopName,
    masthead: fill(w.masthead, { shop: shopName, tag }),
    greeting: greetingFor(ownerName, { plain: letter.hello, named: letter.helloNamed }),
    ready: fill(letter.ready, { tag }),
    opening: paragraphsOf(words.opening),
    said,
    reply: replyOf(tag, oneLine(shop.email), link, w),
    closing: paragraphsOf(words.closing),
    sign: [oneLine(shop.builder), shopName].filter((line) => line !== ''),
    foot: {
      why: w.foot.why,
      loads: w.foot.loads,
      who: [
        ...(oneLine(shop.address) === ''
          ? []
          : [fill(w.foot.who, { shop: shopName, address: oneLine(shop.address) })]),
        ...(oneLine(shop.email) === '' ? [] : [fill(w.foot.reply, { email: oneLine(shop.email) })]),
      ],
    },
  }
}

/** Trade words explained where they are first read; the sheet on paper and page leads to a list of them instead. */
function glossed(said: SheetSaid, { language }: Figures): SheetSaid {
  const { add } = glosser(wordsIn(language).glosses)
  const rows = <R extends { readonly label: string; readonly text: string }>(list: readonly R[]) =>
    list.map((row) => ({ ...row, label: add(row.label), text: add(row.text) }))
  return {
    ...said,
    inside: { ...said.inside, rows: rows(said.inside.rows) },
    next: {
      ...said.next,
      kinds: said.next.kinds.map((kind) => ({
        ...kind,
        bounds: kind.bounds.map(({ label, value }) => ({ label: add(label), value: add(value) })),
        best: kind.best.map((part) => ({ ...part, why: part.why.map(add) })),
        says: kind.says.map(add),
      })),
    },
    never: {
      ...said.never,
      groups: said.never.groups.map((group) => ({ ...group, rows: group.rows.map(add) })),
    },
    supply: { ...said.supply, says: said.supply.says.map(add) },
    unknown: { ...said.unknown, rows: rows(said.unknown.rows) },
  }
}

/** Names the part that gains most, where there is one and its name leaves room. */
type Words = Tables['sheetMail']

function preheaderOf({ next }: LimitsSheet, w: Words): string {
  const name = next[0]?.best[0]?.name
  const named = name === undefined ? w.preheader : fill(w.preheaderNext, { name: oneLine(name) })
  return named.length <= PREHEADER_MOST ? named : w.preheader
}

function replyOf(tag: string, email: string, link: string | undefined, w: Words): SheetMail['reply'] {
  const { reply } = w
  if (link !== undefined)
    return { words: reply.page, href: link, note: reply.pageNote, text: fill(reply.pageText, { link }) }
  const address = encodeURIComponent(email).replaceAll('%40', '@')
  const subject = encodeURIComponent(fill(reply.askSubject, { tag }))
  return {
    words: reply.ask,
    href: `mailto:${address}?subject=${subject}`,
    note: reply.askNote,
    text: reply.askText,
  }
}
