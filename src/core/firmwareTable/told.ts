import { readProcessor } from '../naming/processors.ts'
import { plain } from '../naming/text.ts'
import type { Processor } from '../part.ts'

/**
 * What firmware makers leave in a field that nobody filled in (seen in public tables of real machines): it is no name
 * of anything.
 */
const LEFT_EMPTY: readonly RegExp[] = [
  /^(?:to be filled(?: by o\.?e\.?m\.?)?|filled by o\.?e\.?m\.?|o\.?e\.?m\.?|default(?: string)?|string)$/i,
  /^(?:not (?:specified|available|applicable|provided|defined)|unspecified|undefined|unknown|none|null|empty|n\/?a)$/i,
  /^\[?(?:empty|unknown)\]?$/i,
  /^type ?\d+ - /i,
  /^(?:system|base ?board|chassis|board|product|type\d?)[ -]*(?:manufacturer|product name|product|name|version|vendor)?$/i,
  /^(?:manufacturer|partnum(?:ber)?|sernum|module ?part ?number|array\d+_partnumber)[_ ]?\d*$/i,
  /^(?:x[.x]*|[0. -]+|0x0*|0123456789\w*|1234567\d*|[.?*#-]+)$/i,
]
/** Codes of a maker where its name is due. */
const MAKER_CODE = /^(?:0x)?[0-9a-f]{4,}$/i

/** The text, when it names something. */
export const told = (text: string | undefined): string | undefined =>
  text === undefined || LEFT_EMPTY.some((empty) => empty.test(text.replace(/\.+$/, '')) || empty.test(text))
    ? undefined
    : text

export const toldMaker = (text: string | undefined): string | undefined =>
  MAKER_CODE.test(text ?? '') ? undefined : told(text)

/** Letters and digits only, in lower case: how names are compared. */
export const folded = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '')

const FEWEST = 3

/** Whether a piece of a name stands in another name, whatever is between its letters. */
export const isIn = (piece: string | undefined, name: string): boolean => {
  const short = folded(piece ?? '')
  return short.length >= FEWEST && folded(name).includes(short)
}

/** One name in the other: with the maker and without, with the clock behind and without. */
export const isAlike = (a: string, b: string): boolean => isIn(a, b) || isIn(b, a)

/** Maker and product as one name; a product that begins with its maker is not said twice. */
export function nameOf(maker: string | undefined, product: string): string {
  const first = maker?.split(/[ ,]/)[0]
  return maker === undefined || (first !== undefined && isIn(first, product))
    ? product
    : `${maker} ${product}`
}

/** A processor's name as people write it: without clock, trade marks and what every one has (common practice). */
export const processorName = (brand: string): string =>
  plain(brand)
    .replace(/ *@.*$/, '')
    .replace(
      /\b(?:\d+th Gen|CPU|Processor|(?:Dual|Quad|Six|Eight|Twelve|Sixteen|\d+)-Core|with .*)(?= |$)/gi,
      '',
    )
    .replace(/ +/g, ' ')
    .trim()

/** The model number that a name's figures were read from, such as `i510400f`; undefined where none was read. */
const modelIn = (name: string): string | undefined => {
  const from = readProcessor(plain(name)).generation?.from
  return from === undefined ? undefined : folded(from)
}

/** Whether two names mean one processor: by their model numbers where both have one, else by their letters. */
export function isSameProcessor(fitted: Pick<Processor, 'name'>, read: string): boolean {
  const [one, other] = [modelIn(fitted.name), modelIn(read)]
  if (one !== undefined && other !== undefined) return one.endsWith(other) || other.endsWith(one)
  return isAlike(fitted.name, read)
}

/** Whether both names have a model number, and not the same. */
export function areTwoModels(a: string, b: string): boolean {
  const isRead = modelIn(a) !== undefined && modelIn(b) !== undefined
  return isRead && !isSameProcessor({ name: a }, b)
}
