import type { Plugs } from '../part.ts'
import { blank, type Found, figuresIn, findAll, LEFT, pieceOf, RIGHT, theFigure } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

const COUNTS: Readonly<Record<string, number>> = { one: 1, single: 1, two: 2, dual: 2, three: 3, triple: 3 }
const ITEM = `(?:(?:[1-4] *x *|(?:${Object.keys(COUNTS).join('|')})[ -]+))?(?:16|8|6)`
const GROUP = `${ITEM}(?: *\\+ *${ITEM})*[ -]*pins?`
/** `2x8-pin`, `8+6 pin`, `one 8-pin and one 6-pin`; `6+2-pin` is a supply's plug and not read. */
const PLUGS = `${LEFT}(?<!\\+ *|\\.)${GROUP}(?: *(?:\\+|&|and|plus) *${GROUP})*${RIGHT}(?! *\\+)`
const NEW_PLUG = `${LEFT}12v(?:hpwr|-?2x6)${RIGHT}`
const NO_PLUGS = `${LEFT}(?:(?:no|without(?: a| any)?) +(?:(?:extra|additional|auxiliary) +)?(?:power +)?(?:plugs?|connectors?)|slot[ -]powered)${RIGHT}`
/** Before or behind a count that the pattern does not see: `pair of 8-pin`, `2 8-pin`, `8-pin plugs`, `8-pin x2`. */
const COUNT_BEFORE = /\d *x? *$/i
const OTHER_BEFORE = /(?:no|without|of|both|several|multiple|pair|more|extra|eps|cpu) *$/i
const PLURAL_BEHIND = /^ *(?:plugs|connectors|cables|sockets)/i
const TIMES_BEHIND = /^ *\(?x *\d/i

function plugsOf(text: string, { at, end }: Found): Plugs | undefined {
  const count = { '6': 0, '8': 0, '16': 0 }
  for (const { groups } of findAll(
    text.slice(at, end),
    `${LEFT}(?:([1-4]) *x *|([a-z]+)[ -]+)?(16|8|6)${RIGHT}`,
  )) {
    const [, digit, word = '', pins] = groups
    if (pins === '6' || pins === '8' || pins === '16')
      count[pins] += digit === undefined ? (COUNTS[word.toLowerCase()] ?? 1) : Number(digit)
  }
  const [before, behind] = [text.slice(0, at), text.slice(end)]
  const isOne = count['6'] + count['8'] + count['16'] === 1
  const hasCount = /^(?:\d *x|[a-z])/i.test(text.slice(at))
  const isHidden =
    OTHER_BEFORE.test(before) ||
    (!hasCount && COUNT_BEFORE.test(before)) ||
    TIMES_BEHIND.test(behind) ||
    (isOne && PLURAL_BEHIND.test(behind))
  return isHidden ? undefined : { pin6: count['6'], pin8: count['8'], pin16: count['16'] }
}

/** An adapter names plugs of two ends, so with one in the text there is no telling which are the card's. */
function plugsIn(text: string, places: readonly Found[]): Piece<Plugs> | undefined {
  const none = { pin6: 0, pin8: 0, pin16: 0 }
  const all = [
    ...places.map((found) => ({ found, value: plugsOf(text, found) })),
    ...findAll(text, NEW_PLUG).map((found) => ({ found, value: { ...none, pin16: 1 } })),
    ...findAll(text, NO_PLUGS).map((found) => ({ found, value: none })),
  ]
  const sure = all.flatMap(({ found, value }) => (value === undefined ? [] : [pieceOf(text, found, value)]))
  return sure.length < all.length || /adapt|converter|splitter/i.test(text) ? undefined : onlyOne(sure)
}

const MEMORY_GB = new Set([1, 2, 3, 4, 5, 6, 8, 10, 11, 12, 16, 20, 24, 32, 48])

/** Generation, and lanes behind it. With `slot` behind, it is the machine's slot and not the card's link. */
const LINK = `${LEFT}(?:pci-?e(?:xpress)?[ -]*(?:gen[ -]*)?|gen(?:eration)?[ -]*)([1-5])(?:\\.0)?(?:[ ,-]*x *(16|8|4|1))?${RIGHT}(?!(?:\\.0)?(?:[ ,-]*x *\\d+)? *slot)`

/** Shortest and longest card of the trade in mm (common practice); other sides and fans are not its length. */
const LENGTH_MM = { least: 140, most: 400 }
const NOT_LENGTH = /^ *(?:fans?|thick|wide|width|high|height|tall|deep|radiator|slot)/i

function lengthIn(text: string): Piece<number> | undefined {
  const lengths = figuresIn(text, 'mm').filter(({ end }) => !NOT_LENGTH.test(text.slice(end)))
  const length = theFigure(lengths, LENGTH_MM.least, LENGTH_MM.most)
  return length && pieceOf(text, length, length.value)
}

/**
 * What the text about a card says in figures: memory, plugs, length, link. The model's own name and number are never
 * read: they are no naming rule that anybody published.
 */
export function readCard(text: string): Pieces<'card'> {
  const places = findAll(text, PLUGS)
  const left = blank(text, places)
  const memory = theFigure(figuresIn(left, 'gb?'), 1, 48)
  const links = findAll(left, LINK)
  const lanes = links.flatMap((found) =>
    found.groups[2] === undefined ? [] : [pieceOf(text, found, Number(found.groups[2]))],
  )
  return {
    memoryGB: memory && MEMORY_GB.has(memory.value) ? pieceOf(text, memory, memory.value) : undefined,
    plugs: plugsIn(text, places),
    lengthMm: lengthIn(left),
    pcieGen: onlyOne(links.map((found) => pieceOf(text, found, Number(found.groups[1])))),
    pcieLanes: onlyOne(lanes),
  }
}
