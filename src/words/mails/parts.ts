import type { Shop } from '../../core/answer.ts'
import type { Figures } from '../figures.ts'
import { greetingFor } from '../greeting.ts'
import { type Filling, type Forms, fill, formOf, oneLine } from '../say.ts'
import { type Tables, wordsIn } from '../tables.ts'
import { plainSpaces } from '../wrap.ts'
import type { Notice } from './notice.ts'

/** Subject lines longer than this are cut by phones. */
export const SUBJECT_MOST = 50

/** Who writes to whom, about which machine. */
export type Parties = {
  readonly shop: Pick<Shop, 'name' | 'email' | 'builder' | 'address'>
  readonly customerName?: string | undefined
  readonly tag?: string | undefined
  /** The owner's page, where a link was made. */
  readonly link?: string | undefined
  /** The builder's own words before and after ours; an empty line parts them. */
  readonly opening?: readonly string[] | undefined
  readonly closing?: readonly string[] | undefined
}

const RULES = { en: new Intl.PluralRules('en'), de: new Intl.PluralRules('de') }
const LISTS = {
  en: new Intl.ListFormat('en', { type: 'conjunction' }),
  de: new Intl.ListFormat('de', { type: 'conjunction' }),
}

/** The words of the mails in the language of the figures, and how they count. */
export function mailWords({ language }: Figures) {
  const rules = RULES[language]
  const tables = wordsIn(language)
  const count = (n: number): string => tables.answer.counts[n] ?? String(n)
  return {
    w: tables.mails,
    tables,
    list: (items: readonly string[]) => LISTS[language].format(items),
    some: (forms: Forms, n: number, values: Filling = {}) =>
      fill(formOf(forms, n, rules), { count: count(n), ...values }),
  }
}

export const mailto = (email: string, subject: string): string =>
  `mailto:${encodeURIComponent(oneLine(email)).replaceAll('%40', '@')}?subject=${encodeURIComponent(subject)}`

/** Where the shop is, as kept in the settings; without an address it is named all the same. */
export const addressOf = ({ address }: Parties['shop'], { atShop }: Tables['mails']): string =>
  oneLine(address) === '' ? atShop : oneLine(address)

export const firstThatFits = (lines: readonly string[], most: number): string =>
  lines.find((line) => line.length <= most) ?? lines.at(-1) ?? ''

type Told = Pick<Notice, 'subject' | 'preheader' | 'lead' | 'reply' | 'blocks'> & {
  /** The one thing to do now: it stands at the end. */
  readonly next: string
  readonly why: string
  readonly optOut?: Notice['foot']['optOut']
}

/** What every mail has around its news: who writes, the greeting, the signature, why it came. */
export function noticeFrom(
  { shop, customerName = '', tag, opening = [], closing = [] }: Parties,
  { subject, preheader, lead, reply, blocks, next, why, optOut }: Told,
  figures: Figures,
): Notice {
  const { w } = mailWords(figures)
  const name = oneLine(shop.name)
  return {
    lang: figures.lang,
    subject: plainSpaces(oneLine(subject)),
    preheader: plainSpaces(preheader),
    shopName: name,
    ...(tag !== undefined && { tag: oneLine(tag) }),
    masthead:
      tag === undefined
        ? fill(w.mastheadPlain, { shop: name })
        : fill(w.masthead, { shop: name, tag: oneLine(tag) }),
    greeting: greetingFor(customerName, { plain: w.hello, named: w.helloNamed }),
    opening: opening.map(oneLine),
    lead,
    reply,
    blocks: [...blocks, { is: 'says', head: w.next.head, says: [next] }],
    closing: closing.map(oneLine),
    sign: [w.regards, fill(w.sign, { builder: oneLine(shop.builder), shop: name }).replace(/^, /, '')],
    foot: {
      why,
      loads: w.foot.loads,
      who: [
        ...(oneLine(shop.address) === ''
          ? []
          : [fill(w.foot.who, { shop: name, address: oneLine(shop.address) })]),
        fill(w.foot.reply, { email: oneLine(shop.email) }),
      ],
      ...(optOut !== undefined && { optOut }),
    },
  }
}
