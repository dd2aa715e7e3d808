import type { Language } from '../core/language.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import { greetingFor } from './greeting.ts'
import { photoOf } from './photoHint.ts'
import { curly, fill, oneLine } from './say.ts'
import { wordsIn } from './tables.ts'

type Asking = {
  readonly limitKey: LimitKey
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly builder: string
  readonly shop: string
  /** The owner's page; absent where no link was made. */
  readonly link?: string | undefined
  /** What the owner reads; English where nobody says. */
  readonly language?: Language | undefined
}

/**
 * What is needed, inside a sentence: "room for a card"; of something that is so or not, what it is about: "whether
 * cooler, fans and filters are free of dust", which then need not be explained again.
 */
export function wantedWords(
  key: LimitKey,
  language: Language = 'en',
): { readonly what: string; readonly saysMeaning: boolean } {
  const { limits, askOwner, customerLimits } = wordsIn(language)
  const { label, meaning } = limits[key]
  const own = askOwner.nouns[key]
  if (own !== undefined) return own
  const isWhether = meaning.startsWith(askOwner.whether)
  const text = curly(isWhether ? meaning.replace(/\.$/, '') : (customerLimits[key] ?? label))
  if (!askOwner.nounsSmall && !isWhether) return { what: text, saysMeaning: true }
  return { what: smallFirst(text), saysMeaning: !isWhether }
}

/** "SATA ports" stays as it is. */
const smallFirst = (text: string): string =>
  text.replace(/^\p{Lu}(?!\p{Lu}|\.)/u, (first) => first.toLowerCase())

/** A label as it stands inside a sentence, by the language's own rule. */
export const insideSentence = (label: string, language: Language): string =>
  wordsIn(language).askOwner.nounsSmall ? smallFirst(label) : label

/** The short text that asks an owner for one thing: which, what it is, how it is found out, and where to put it. */
export function askOwnerText(asking: Asking): string {
  const { limitKey, tag, ownerName, builder, shop, link, language = 'en' } = asking
  const { askOwner: w, limits } = wordsIn(language)
  const { meaning, findOut } = limits[limitKey]
  const { what, saysMeaning } = wantedWords(limitKey, language)
  const photo = photoOf(limitKey, w.photos)
  return [
    greetingFor(ownerName, { plain: w.hello, named: w.helloNamed }),
    fill(w.need, { label: what, tag: oneLine(tag) }),
    saysMeaning ? `${curly(meaning)} ${curly(findOut)}` : curly(findOut),
    link === undefined ? fill(w.photo, { photo }) : fill(w.link, { link, photo }),
    fill(w.sign, { builder: oneLine(builder), shop: oneLine(shop) }),
  ].join('\n\n')
}

/** The line with which a short answer leads to the owner's page. */
export const linkLine = (link: string, language: Language = 'en'): string =>
  fill(wordsIn(language).askOwner.answerLink, { link })
