import { minorDigitsOf } from '../currency.ts'
import { partFromWords } from '../naming/partFromWords.ts'
import { findAll, LEFT, plain, RIGHT } from '../naming/text.ts'
import type { Part, PartKind } from '../part.ts'
import { PART_KINDS } from '../part.ts'
import type { Ask, Complaint, PartInMind } from '../question.ts'

/** What a language calls things in a message. Patterns are parts of regular expressions, matched in any case. */
export type MessageWords = {
  /** What stands before or behind an amount, by currency: `dollars`, `bucks`. */
  readonly currencies: Readonly<Record<string, readonly string[]>>
  /** Stands before the price of a part in mind: `get it for`. */
  readonly partPriceBefore: readonly string[]
  readonly complaints: { readonly [C in Complaint]: readonly string[] }
  /** Sayings that tell what kind of question it is. */
  readonly asks: Readonly<Partial<Record<Ask, readonly string[]>>>
  readonly kinds: { readonly [K in PartKind]: readonly string[] }
  /** Stands between the words of a part in mind: `put` ... `in`. */
  readonly putIn: { readonly before: readonly string[]; readonly behind: readonly string[] }
  /** Stands before a part in mind that ends with its sentence: `put in a` ... `?`. */
  readonly putInBefore: readonly string[]
  /** Behind a frame rate. */
  readonly fps: readonly string[]
}

/** What the shop knows that a message can name. */
export type MessageNames = {
  readonly tags: readonly string[]
  readonly titles: readonly { readonly id: string; readonly name: string }[]
  readonly parts: readonly Pick<Part, 'kind' | 'id' | 'name'>[]
  readonly currency: string
  /** Its usual sign, such as `$`. */
  readonly currencySign: string
}

/** Something that was read, with the piece of the message it came from. */
export type Read<V> = { readonly value: V; readonly from: string }

/** What a message says for sure; what could be read in two ways is not there. */
export type MessageRead = {
  readonly tag?: Read<string> | undefined
  readonly asks?: Read<Ask> | undefined
  readonly titleIds: readonly Read<string>[]
  readonly targetFps?: Read<number> | undefined
  readonly size?: Read<{ readonly widthPx: number; readonly heightPx: number }> | undefined
  readonly refreshHz?: Read<number> | undefined
  readonly budgetMinor?: Read<number> | undefined
  readonly complaint?: Read<Complaint> | undefined
  /** All that bothers, each thing once. */
  readonly complaints: readonly Read<Complaint>[]
  readonly partInMind?: Read<PartInMind> | undefined
  /** Pieces that can be read in two ways, such as two amounts: a person decides. */
  readonly unsure: readonly string[]
}

/** More is not a message somebody typed on a phone. */
export const MESSAGE_MAX = 4000

type Place<V> = Read<V> & { readonly at: number }

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')
const anyOf = (patterns: readonly string[]): string => `(?:${patterns.join('|')})`

/**
 * Reads a pasted message for what is sure. Nothing is guessed: of two different amounts, rates or parts none is taken,
 * and they are named as unsure.
 */
export function readMessage(message: string, words: MessageWords, names: MessageNames): MessageRead {
  const typed = message.slice(0, MESSAGE_MAX)
  const text = plain(typed)
  const from = <V>(places: readonly Place<V>[]): Place<V>[] =>
    places.map((place) => ({ ...place, from: typed.slice(place.at, place.at + place.from.length).trim() }))
  const partPrices = pricesBehind(text, words, names)
  const amounts = amountsIn(text, words, names).filter(({ at }) => !partPrices.some((p) => overlaps(p, at)))
  const complaints = from(sayings(text, words.complaints))
  const asks = from(sayings(text, words.asks))
  const part = partIn(text, words, names)
  const rates = from(numbersBefore(text, words.fps, 1, 2000))
  const hertz = from(numbersBefore(text, ['hz', 'hertz'], 20, 2000))
  const sizes = from(sizesIn(text))
  const budgets = from(amounts)
  const [price, ...otherPrices] = distinct(from(partPrices))
  const inMind = part && from([part])[0]
  const one = <V>(places: readonly Place<V>[]): Read<V> | undefined => {
    const [first, ...others] = distinct(places)
    return first && others.length === 0 ? { value: first.value, from: first.from } : undefined
  }
  const two = <V>(places: readonly Place<V>[]): string[] => {
    const all = distinct(places)
    return all.length > 1 ? all.map((place) => place.from) : []
  }
  const asked = one(asks)
  const complaint = one(complaints)
  const bothers = distinct(complaints).map(({ value, from }) => ({ value, from }))
  const [bother] = bothers
  const specific: MessageRead['asks'] =
    inMind && price
      ? { value: 'can I put this in', from: price.from }
      : bother && { value: 'something is wrong', from: bother.from }
  return {
    tag: one(from(tagsIn(text, names.tags))),
    asks: isPlain(asked) ? (specific ?? asked) : asked,
    titleIds: titlesIn(text, typed, names.titles),
    targetFps: one(rates),
    size: one(sizes),
    refreshHz: one(hertz),
    budgetMinor: one(budgets),
    complaint,
    complaints: bothers,
    partInMind: inMind && {
      from: inMind.from,
      value: {
        ...inMind.value,
        ...(price && otherPrices.length === 0 && { priceMinor: price.value }),
      },
    },
    unsure: [
      ...two(from(tagsIn(text, names.tags))),
      ...two(budgets),
      ...two(rates),
      ...two(complaints),
      ...two(hertz),
      ...two(sizes),
      ...(otherPrices.length > 0 ? [price, ...otherPrices].flatMap((p) => p?.from ?? []) : []),
    ],
  }
}

/** "What can I do?" ends many a message that names a part or a complaint; what it names is what it asks. */
const isPlain = (asks: MessageRead['asks']): boolean => asks === undefined || asks.value === 'what can I do'

const overlaps = (place: Place<unknown>, at: number): boolean =>
  at >= place.at && at < place.at + place.from.length

const distinct = <V>(places: readonly Place<V>[]): Place<V>[] =>
  places.filter((a, i) => places.findIndex((b) => JSON.stringify(b.value) === JSON.stringify(a.value)) === i)

const placed = <V>(text: string, { at, end }: { at: number; end: number }, value: V): Place<V> => ({
  ...{ value, at, from: text.slice(at, end) },
})

/** A tag of the shop, written whole. */
const tagsIn = (text: string, tags: readonly string[]): Place<string>[] =>
  tags.flatMap((tag) =>
    findAll(text, `(?<![\\p{L}\\p{N}-])${escaped(tag)}(?![\\p{L}\\p{N}-])`).map((found) =>
      placed(text, found, tag),
    ),
  )

/** Titles by their whole names, the longer name first, so that a name inside another one does not count. */
function titlesIn(text: string, typed: string, titles: MessageNames['titles']): Read<string>[] {
  const taken: Place<string>[] = []
  const longestFirst = [...titles].sort((a, b) => b.name.length - a.name.length)
  for (const { id, name } of longestFirst) {
    const sought = plain(name).trim()
    if (sought.length < 3) continue
    const [found] = findAll(text, `${LEFT}${escaped(sought)}${RIGHT}`).filter(
      ({ at }) => !taken.some((place) => overlaps(place, at)),
    )
    if (found !== undefined) taken.push(placed(text, found, id))
  }
  return taken
    .sort((a, b) => a.at - b.at)
    .map(({ value, at, from }) => ({ value, from: typed.slice(at, at + from.length) }))
}

const AMOUNT = '(\\d{1,7}(?:[.,]\\d{1,3})?)'

/** Minor units; undefined for what can be read in two ways (`1,500`) or has more digits than the currency. */
function minorOf(text: string, currency: string): number | undefined {
  const digits = minorDigitsOf(currency)
  const [whole = '', fraction = ''] = text.split(/[.,]/)
  // Three digits behind a mark group thousands as often as they part decimals.
  if (fraction.length === 3 || fraction.length > digits) return undefined
  const minor = Number(`${whole}${fraction.padEnd(digits, '0')}`)
  return Number.isSafeInteger(minor) ? minor : undefined
}

/** Not a piece of a longer figure: `1.500,00` and `12,50,3` are left alone. */
const ALONE_LEFT = '(?<![\\p{L}\\p{N}])(?<!\\d[.,])'
const ALONE_RIGHT = '(?![.,]?\\d)(?![\\p{L}])'

/** Amounts with the shop's currency beside them; a bare number is no amount. */
function amountsIn(text: string, words: MessageWords, names: MessageNames): Place<number>[] {
  const { currency, currencySign } = names
  const marks = [escaped(currencySign), escaped(currency), ...(words.currencies[currency] ?? [])]
  const mark = anyOf(marks)
  return [
    ...findAll(text, `(?<![\\p{L}\\p{N}])${mark} ?${AMOUNT}${ALONE_RIGHT}`),
    ...findAll(text, `${ALONE_LEFT}${AMOUNT} ?${mark}(?![\\p{L}\\p{N}])`),
  ].flatMap((found) => {
    const minor = minorOf(found.groups[1] ?? '', currency)
    return minor === undefined ? [] : [placed(text, found, minor)]
  })
}

/** The price of a part in mind: `can get it for 120`, with or without the currency. */
function pricesBehind(text: string, words: MessageWords, names: MessageNames): Place<number>[] {
  const { currency, currencySign } = names
  const mark = anyOf([escaped(currencySign), escaped(currency), ...(words.currencies[currency] ?? [])])
  return findAll(
    text,
    `${LEFT}${anyOf(words.partPriceBefore)} (?:${mark} ?)?${AMOUNT}${ALONE_RIGHT}(?: ?${mark}(?![\\p{L}\\p{N}]))?`,
  ).flatMap((found) => {
    const minor = minorOf(found.groups[1] ?? '', currency)
    return minor === undefined ? [] : [placed(text, found, minor)]
  })
}

/** A number with one of these units behind it. */
const numbersBefore = (
  text: string,
  units: readonly string[],
  least: number,
  most: number,
): Place<number>[] =>
  findAll(text, `${ALONE_LEFT}(\\d{1,4}(?:\\.\\d{1,2})?) ?${anyOf(units)}${RIGHT}`).flatMap((found) => {
    const value = Number(found.groups[1])
    return value >= least && value <= most ? [placed(text, found, value)] : []
  })

/** Heights that name a display by themselves, with the width that stands for (ITU-R BT.709 and BT.2020; VESA 1440p). */
const NAMED_SIZES: Readonly<Record<string, { widthPx: number; heightPx: number }>> = {
  '1080p': { widthPx: 1920, heightPx: 1080 },
  '1440p': { widthPx: 2560, heightPx: 1440 },
  '2160p': { widthPx: 3840, heightPx: 2160 },
}

const sizesIn = (text: string): Place<{ widthPx: number; heightPx: number }>[] => [
  ...findAll(text, `${LEFT}(\\d{3,5}) ?x ?(\\d{3,5})${RIGHT}`).flatMap((found) => {
    const [widthPx, heightPx] = [Number(found.groups[1]), Number(found.groups[2])]
    return widthPx >= 640 && widthPx <= 16_000 && heightPx >= 480 && heightPx <= 16_000
      ? [placed(text, found, { widthPx, heightPx })]
      : []
  }),
  ...Object.entries(NAMED_SIZES).flatMap(([name, size]) =>
    findAll(text, `${LEFT}${name}${RIGHT}`).map((found) => placed(text, found, size)),
  ),
]

/** Sayings of a table; each value once. */
const sayings = <V extends string>(
  text: string,
  table: Readonly<Partial<Record<V, readonly string[]>>>,
): Place<V>[] =>
  Object.entries<readonly string[] | undefined>(table).flatMap(([value, patterns]) =>
    patterns === undefined
      ? []
      : findAll(text, `${LEFT}${anyOf(patterns)}${RIGHT}`).map((found) => placed(text, found, value as V)),
  )

/**
 * A part that the message names: one of the shop's by its whole name or key; else what stands between "put" and "in"
 * (or behind "put in") with the word of its kind in it, or a name that carries figures of just one kind. Of several, none.
 */
function partIn(text: string, words: MessageWords, names: MessageNames): Place<PartInMind> | undefined {
  const known = names.parts.flatMap(({ kind, id, name }) =>
    [name, id]
      .filter((sought) => sought.trim().length > 2)
      .flatMap((sought) => findAll(text, `${LEFT}${escaped(plain(sought).trim())}${RIGHT}`))
      .map((found) => placed(text, found, { kind, words: name })),
  )
  const longest = Math.max(0, ...known.map((place) => place.from.length))
  const whole = known.filter((place) => !known.some((other) => covers(other, place)))
  const [only, ...others] = distinct(whole)
  if (only !== undefined) return others.length === 0 && longest > 0 ? only : undefined
  const { before, behind } = words.putIn
  const between = [
    ...findAll(text, `${LEFT}${anyOf(before)} +([^.!?\\n]{3,60}?) +${anyOf(behind)}${RIGHT}`),
    ...findAll(text, `${LEFT}${anyOf(words.putInBefore)} +([^.,;!?\\n]{3,60})(?=[.,;!?\\n]|$)`),
  ]
  const said = between.flatMap((found) => {
    const piece = found.groups[1] ?? ''
    const kinds = kindsIn(piece, words)
    const [kind] = kinds
    return kind !== undefined && kinds.length === 1
      ? [placed(text, found, { kind, words: piece.trim() } satisfies PartInMind)]
      : []
  })
  const [first, ...more] = distinct(said)
  return more.length === 0 ? first : undefined
}

const covers = (a: Place<unknown>, b: Place<unknown>): boolean =>
  a !== b && a.at <= b.at && a.at + a.from.length >= b.at + b.from.length && a.from.length > b.from.length

/** Kinds that a piece of text is about: by their words, else by what a name of that kind tells. */
function kindsIn(piece: string, words: MessageWords): PartKind[] {
  const named = PART_KINDS.filter(
    (kind) => findAll(piece, `${LEFT}${anyOf(words.kinds[kind])}${RIGHT}`).length > 0,
  )
  if (named.length > 0) return named
  const TOLD_BY_NAME: readonly PartKind[] = ['processor', 'memory']
  return TOLD_BY_NAME.filter((kind) =>
    partFromWords(kind, 'x', piece).understood.some(
      ({ field }) => field === 'generation' || field === 'memoryType',
    ),
  )
}
