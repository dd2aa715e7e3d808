import type { Plugs } from '../part.ts'
import { type Found, findAll, LEFT, pieceOf, RIGHT } from './text.ts'
import { onlyOne, type Piece } from './understood.ts'

const WORDS: Readonly<Record<string, number>> = {
  one: 1,
  single: 1,
  two: 2,
  dual: 2,
  three: 3,
  triple: 3,
  four: 4,
}
const COUNT = `(?:\\d{1,2} *x *|(?:${Object.keys(WORDS).join('|')})[ -]+)?`
const PINS = `[ -]*pins?`
/** An 8-pin plug that comes in two pieces (common practice). */
const SPLIT = `6 *\\+ *2`
const ITEM = `${COUNT}(?:16|8|6)`
const GROUP = `(?:${COUNT}${SPLIT}|${ITEM}(?: *\\+ *${ITEM})*)${PINS}`
const GROUPS = `${GROUP}(?: *(?:\\+|&|,|and|plus) *${GROUP})*`
/** `2x8-pin`, `3x8pin`, `8+6 pin`, `one 8-pin and one 6-pin`, `2x 6+2 pin`. */
export const PLUGS = `${LEFT}(?<!\\+ *|\\.)${GROUPS}${RIGHT}(?! *\\+)`

const TOKEN = new RegExp(
  `${LEFT}(?:(\\d{1,2}) *x *|(${Object.keys(WORDS).join('|')})[ -]+)?(${SPLIT}(?=${PINS})|16|8|6)(?!\\d)`,
  'giu',
)

/** Plugs of a text that is nothing but plugs, as `PLUGS` has it; undefined for any other text. */
export function plugsNamed(text: string): Plugs | undefined {
  if (!new RegExp(`^(?:${GROUPS})$`, 'iu').test(text)) return undefined
  const count = { '6': 0, '8': 0, '16': 0 }
  for (const [, digits, word = '', pins = ''] of text.matchAll(TOKEN)) {
    const kind = pins === '6' || pins === '16' ? pins : '8'
    count[kind] += digits === undefined ? (WORDS[word.toLowerCase()] ?? 1) : Number(digits)
  }
  return { pin6: count['6'], pin8: count['8'], pin16: count['16'] }
}

const NEW_PLUG = `${LEFT}12v(?:hpwr|-?2x6)${RIGHT}`
const OF_A_CARD = `(?:(?:pci-?e|gpu|graphics|(?:graphics +)?card) +)`
const NO_PLUGS = {
  card: `${LEFT}(?:(?:no|without(?: a| any)?) +(?:(?:extra|additional|auxiliary) +)?(?:power +)?(?:plugs?|connectors?)|slot[ -]powered)${RIGHT}`,
  supply: `${LEFT}(?:no|without(?: a| any)?) +${OF_A_CARD}(?:power +)?(?:plugs?|connectors?|cables?)${RIGHT}`,
} as const

/** Before or behind a count that the pattern does not see: `pair of 8-pin`, `2 8-pin`, `8-pin plugs`, `8-pin x2`. */
const COUNT_BEFORE = /\d *x? *$/i
const OTHER_BEFORE =
  /(?:no|without|of|both|several|multiple|pair|more|extra|eps|cpu|processor|board|\d *\+) *$/i
const OTHER_BEHIND =
  /^ *(?:\(? *(?:eps|atx|cpu|processor|board|mainboard|motherboard|main)(?![\p{L}\p{N}]))/iu
const PLURAL_BEHIND = /^ *(?:plugs|connectors|cables|sockets)/i
const TIMES_BEHIND = /^ *\(?x *\d/i

function plugsAt(text: string, { at, end }: Found, owner: 'card' | 'supply'): Plugs | undefined {
  const plugs = plugsNamed(text.slice(at, end))
  if (plugs === undefined) return undefined
  const [before, behind] = [text.slice(0, at), text.slice(end)]
  const sum = plugs.pin6 + plugs.pin8 + plugs.pin16
  const hasCount = /^(?:\d+ *x|[a-z])/i.test(text.slice(at))
  const isHidden =
    sum === 0 ||
    OTHER_BEFORE.test(before) ||
    OTHER_BEHIND.test(behind) ||
    (!hasCount && COUNT_BEFORE.test(before)) ||
    TIMES_BEHIND.test(behind) ||
    (sum === 1 && PLURAL_BEHIND.test(behind)) ||
    (owner === 'supply' && !hasCount && isProcessorsToo(text.slice(at, end), before))
  return isHidden ? undefined : plugs
}

/** `8-pin` alone on a supply may as well be the plug for the processor, which has eight contacts too. */
const isProcessorsToo = (plug: string, before: string): boolean =>
  /^8[ -]*pins?$/i.test(plug) && !new RegExp(`${OF_A_CARD}$`, 'iu').test(before)

/**
 * The plugs that a card needs or a supply has, by its name. What cannot be read for certain gives none at all, never
 * "no plugs". An adapter names plugs of two ends, so with one in the text there is no telling which are meant.
 *
 * @param places where `PLUGS` matches
 */
export function plugsIn(
  text: string,
  places: readonly Found[],
  owner: 'card' | 'supply',
): Piece<Plugs> | undefined {
  const none = { pin6: 0, pin8: 0, pin16: 0 }
  const all = [
    ...places.map((found) => ({ found, value: plugsAt(text, found, owner) })),
    ...findAll(text, NEW_PLUG).map((found) => ({ found, value: { ...none, pin16: 1 } })),
    ...findAll(text, NO_PLUGS[owner]).map((found) => ({ found, value: none })),
  ]
  const sure = all.flatMap(({ found, value }) => (value === undefined ? [] : [pieceOf(text, found, value)]))
  return sure.length < all.length || /adapt|converter|splitter/i.test(text) ? undefined : onlyOne(sure)
}
