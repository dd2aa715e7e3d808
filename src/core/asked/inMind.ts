import type { Minor } from '../money.ts'
import { filledFromName } from '../naming/fromName.ts'
import { editDistance } from '../naming/slips.ts'
import type { Part } from '../part.ts'
import type { PartInMind, Question } from '../question.ts'
import { type Base, basesOf } from '../ranking/bases.ts'
import type { Option, Ranking } from '../ranking/option.ts'
import { dueOfOpening, dueOfWork, netPriceOf } from '../ranking/price.ts'
import type { Desk } from '../ranking/rank.ts'
import { GAIN_KINDS, type Offer } from '../ranking/shelf.ts'
import { fittingWork } from '../shop.ts'
import type { PartAsked, SameMoney } from './asked.ts'
import { changeAsked } from './change.ts'
import { asFiguresOf } from './ofPart.ts'

/** Key of a part that the shop has no record of. No key of the shop has a space in it. */
export const IN_MIND_ID = 'in mind'
/** Key of the owner's own offer, where a shelf item would stand. */
const OWNERS_ITEM_ID = 'the owner'

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

/** The record of the shop that the words name: its key or its whole name, upper and lower case alike. */
export const recordOf = ({ kind, words }: PartInMind, parts: readonly Part[]): Part | undefined =>
  parts.find((part) => part.kind === kind && (same(part.id, words) || same(part.name, words)))

const LIKE_MOST = 3
/** A word of a name that tells one model from others; "8G" and "card" are in many. */
const TELLING_LETTERS = 4

const wordsIn = (text: string): string[] =>
  (text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []).map((word) => word.replace(/^(\d+)gb$/, '$1g'))

/** So many slips of the keyboard a word may have: one in five letters, so that short ones stand as they are. */
const mostSlips = (word: string): number => Math.floor(word.length / 5)

const isMeant = (word: string, typed: ReadonlySet<string>): boolean =>
  typed.has(word) ||
  (!/\d/.test(word) &&
    mostSlips(word) > 0 &&
    [...typed].some((other) => editDistance(word, other) <= mostSlips(word)))

/**
 * Records that the words may mean, the likeliest first: at least half of the words of their names are there, a slip of the
 * keyboard apart, one of them a telling one. Nobody is taken at that: a person says which it is.
 */
export function recordsLike({ kind, words }: PartInMind, parts: readonly Part[]): Part[] {
  const typed = new Set(wordsIn(words))
  return parts
    .filter((part) => part.kind === kind)
    .flatMap((part) => {
      const name = wordsIn(part.name)
      const there = name.filter((word) => isMeant(word, typed))
      const isTelling = there.some((word) => word.length >= TELLING_LETTERS && /\p{L}/u.test(word))
      return isTelling && there.length * 2 >= name.length ? [{ part, share: there.length / name.length }] : []
    })
    .sort((a, b) => b.share - a.share || (a.part.id < b.part.id ? -1 : 1))
    .slice(0, LIKE_MOST)
    .map(({ part }) => part)
}

/**
 * The part as it is judged: figures that somebody gave for this one come first, then the shop's record, then what its
 * name says for sure. A figure that was given is no longer one that only a name tells.
 */
export function partInMindOf(inMind: PartInMind, parts: readonly Part[]): { part: Part; isKnown: boolean } {
  const { kind, words } = inMind
  const record = recordOf(inMind, parts)
  const { id: _, name: __, kind: ___, readFromName: ____, ...given } = inMind.part ?? { id: '', name: '' }
  // The figures are those of the kind: the form and the table of that kind wrote them.
  const part = { ...(record ?? { kind, id: IN_MIND_ID, name: words.trim() }), ...given } as Part
  if (record === undefined) return { part: filledFromName(part), isKnown: false }
  const { readFromName = [], ...stated } = part
  const told = readFromName.filter((field) => !(field in given))
  return { part: told.length === 0 ? (stated as Part) : { ...part, readFromName: told }, isKnown: true }
}

/**
 * How well it is known which model a part without a record is. One exact model tells all its figures at once, so it is
 * asked for before any figure is; somebody who gave figures, or said that nobody knows, is asked for the others.
 */
export const modelStands = ({ model, part }: PartInMind): 'to ask' | 'exact' | 'not known' => {
  const { id: _, name: __, kind: ___, readFromName: ____, ...figures } = part ?? { id: '', name: '' }
  const isDescribed = Object.values(figures).some((figure) => figure !== undefined)
  return model ?? (isDescribed ? 'not known' : 'to ask')
}

/** A part in mind: does it go in, with what beside it, for how much, and does the shelf do better for the money. */
export function inMindAsked(
  { wanted }: Question,
  inMind: PartInMind,
  parts: readonly Part[],
  desk: Desk,
  ranking: Ranking,
): PartAsked {
  const { part, isKnown } = partInMindOf(inMind, parts)
  const { priceMinor } = inMind
  const offer: Offer = {
    part,
    untaxed: true,
    item: {
      ...{ id: OWNERS_ITEM_ID, partId: part.id, condition: 'used', quantity: 1, at: '' },
      priceMinor: priceMinor ?? 0,
    },
  }
  const change = changeAsked(basesFor(offer, desk), desk, part.kind)
  const findings = asFiguresOf(part, change.findings)
  const option = change.option && asWeCharge(change.option, part, priceMinor, desk)
  const oursMinor = option?.price.netMinor
  const shelfItem = desk.offers.find((o) => o.part.id === part.id)?.item
  return {
    ask: 'can I put this in',
    part,
    isKnown,
    priceMinor,
    change: { ...change, findings, option },
    oursMinor,
    sameMoney: sameMoneyOf(wanted.length, priceMinor, oursMinor ?? labourFor(part, desk), ranking),
    ...(shelfItem && { onShelf: { itemId: shelfItem.id, priceMinor: shelfItem.priceMinor } }),
  }
}

/** A kit of memory goes in beside the others or instead of them; everything else in one way. */
function basesFor(offer: Offer, { search }: Desk): Base[] {
  if (GAIN_KINDS.has(offer.part.kind)) return basesOf([offer], search.build)
  return [{ offers: [offer], removeIds: [], chosen: [], work: [] }]
}

/** The owner pays the part elsewhere: what we charge for is the work and what goes in beside it. */
function asWeCharge(option: Option, part: Part, priceMinor: Minor | undefined, desk: Desk): Option {
  const lines = option.price.lines.filter(
    ({ shelfItemId, what }) => shelfItemId !== OWNERS_ITEM_ID && what !== 'tax',
  )
  return {
    ...option,
    ...(option.surely && { surely: asWeCharge(option.surely, part, priceMinor, desk) }),
    shelfItemIds: option.shelfItemIds.filter((id) => id !== OWNERS_ITEM_ID),
    companionPartIds: option.companionPartIds.filter((id) => id !== part.id),
    findings: asFiguresOf(part, option.findings),
    price: netPriceOf(lines, option.price.unpriced, desk.prices.tax),
    // Without the owner's price nobody knows what the whole costs.
    pctPer100: priceMinor === undefined ? undefined : option.pctPer100,
  }
}

/** What fitting it would cost where it does not go in: the money that other roads may cost as well. */
const labourFor = ({ kind }: Part, { prices }: Desk): number =>
  dueOfOpening(prices) + dueOfWork(prices, fittingWork(kind))

function sameMoneyOf(
  titles: number,
  priceMinor: number | undefined,
  oursMinor: number,
  { ranked }: Ranking,
): SameMoney {
  const spendMinor = priceMinor === undefined ? undefined : Math.max(0, priceMinor + oursMinor)
  if (spendMinor === undefined) return { because: 'no price' }
  if (titles === 0) return { spendMinor, because: 'no titles' }
  if (ranked.length === 0) return { spendMinor, because: 'no runs' }
  const bestId = mostUseful(ranked.filter(({ price }) => price.netMinor <= spendMinor))?.id
  return bestId === undefined ? { spendMinor, because: 'nothing better' } : { spendMinor, bestId }
}

/**
 * The largest gain that is worth the visit and told apart from doing nothing; equal gains: the lower price. Gains over
 * different titles are not compared: the widest set, which stands first in a ranking, counts.
 */
function mostUseful(options: readonly Option[]): Option | undefined {
  const good = options.filter((o) => o.worthTheVisit && (o.useful?.pctLow ?? 0) > 0)
  const titles = (o: Option) => JSON.stringify(o.useful?.countedTitleIds)
  const [first] = good
  const [best] = good
    .filter((o) => first !== undefined && titles(o) === titles(first))
    .sort((a, b) => (b.useful?.pct ?? 0) - (a.useful?.pct ?? 0) || a.price.netMinor - b.price.netMinor)
  return best
}
