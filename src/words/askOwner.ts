import type { LimitKey } from '../core/limits/limit.ts'
import { ASK_OWNER_EN } from './en/askOwner.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import { curly, fill, oneLine } from './say.ts'

type Asking = {
  readonly limitKey: LimitKey
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly builder: string
  readonly shop: string
  /** The owner's page; absent where no link was made. */
  readonly link?: string | undefined
}

/**
 * What is needed, inside a sentence: "room for a card"; of something that is so or not, what it is about: "whether
 * cooler, fans and filters are free of dust", which then need not be explained again.
 */
export function wantedWords(key: LimitKey): { readonly what: string; readonly saysMeaning: boolean } {
  const { label, meaning } = LIMIT_WORDS[key]
  const own = ASK_OWNER_EN.nouns[key]
  if (own !== undefined) return own
  const isWhether = /^Whether /.test(meaning)
  const text = curly(isWhether ? meaning.replace(/\.$/, '') : label)
  // "SATA ports" stays as it is.
  const what = text.replace(/^\p{Lu}(?!\p{Lu}|\.)/u, (first) => first.toLowerCase())
  return { what, saysMeaning: !isWhether }
}

/** The short text that asks an owner for one thing: which, what it is, how it is found out, and where to put it. */
export function askOwnerText({ limitKey, tag, ownerName, builder, shop, link }: Asking): string {
  const w = ASK_OWNER_EN
  const { meaning, findOut } = LIMIT_WORDS[limitKey]
  const { what, saysMeaning } = wantedWords(limitKey)
  const [first = ''] = oneLine(ownerName ?? '').split(' ')
  return [
    first === '' ? w.hello : fill(w.helloNamed, { name: first }),
    fill(w.need, { label: what, tag: oneLine(tag) }),
    saysMeaning ? `${curly(meaning)} ${curly(findOut)}` : curly(findOut),
    link === undefined ? w.photo : fill(w.link, { link }),
    fill(w.sign, { builder: oneLine(builder), shop: oneLine(shop) }),
  ].join('\n\n')
}

/** The line with which a short answer leads to the owner's page. */
export const linkLine = (link: string): string => fill(ASK_OWNER_EN.answerLink, { link })
