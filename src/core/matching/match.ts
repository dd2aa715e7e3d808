import { FACTS_VERSION } from '../facts/version.ts'
import type { Missing } from '../fit/finding.ts'
import { RULES_VERSION } from '../fit/rules.ts'
import { byText } from '../gain/cellOf.ts'
import { measuredModel } from '../gain/measured.ts'
import { MODEL_NAME, modelOfExcerpt } from '../gain/model/index.ts'
import type { Minor } from '../money.ts'
import type { UsefulGain } from '../ranking/option.ts'
import type { MatchAsk, MatchCustomer, MatchInputs, MatchShop } from './ask.ts'
import { assign } from './assign.ts'
import { type Certificate, checkCertificate } from './certificate.ts'
import {
  companionItems,
  companionPlaces,
  offered,
  type Packed,
  packOffers,
  usedBy,
} from './companionStock.ts'
import type { LeftBecause } from './leftOut.ts'
import { type Could, chosenItems, type Item, lookAtPairs, marginOf, type Pairs } from './pairs.ts'
import { valueOfPrice } from './table.ts'
import { benchOf, type Way } from './worth.ts'

/** Raise it when the same inputs would be matched in another way. */
export const MATCHING_VERSION = '2'

/** What one customer would be offered. Plain data, for a round of mails. */
export type MatchedOffer = Way & {
  readonly customerId: string
  readonly machineTag: string
  readonly itemId: string
  /** The question whose titles, display and wishes counted. */
  readonly questionId: string
  readonly useful: UsefulGain
  readonly marginMinor?: Minor | undefined
  /** In units of the aim; see `unitOf`. */
  readonly value: number
  /** The next best item for this customer, where another one would do. */
  readonly next?: { readonly itemId: string; readonly pct: number; readonly value: number } | undefined
}

export type LeftOut = {
  readonly customerId: string
  readonly machineTag?: string | undefined
  readonly reason: LeftBecause
  /** The item it came nearest with, and what that would have been. */
  readonly itemId?: string | undefined
  readonly pct?: number | undefined
  readonly netMinor?: Minor | undefined
  readonly ceilingMinor?: Minor | undefined
  /** What to find out. */
  readonly missing?: readonly Missing[] | undefined
  /** Rules that say no. */
  readonly rules?: readonly string[] | undefined
  /** End of the quiet period; ISO 8601 UTC. */
  readonly until?: string | undefined
  /** The companion there is too little of. */
  readonly shortItemId?: string | undefined
  /** Others gain more: what the offer is worth to them and what it would have been here, in units of the aim. */
  readonly priceValue?: number | undefined
  readonly value?: number | undefined
}

export type ItemOutcome = {
  readonly itemId: string
  readonly partId: string
  readonly quantity: number
  readonly places: number
  readonly offered: number
  /** How many customers it could go to. */
  readonly couldGo: number
  /** What one more piece would add, in units of the aim, at most. */
  readonly oneMore: number
}

/** A companion that offers take along. */
export type CompanionOutcome = {
  readonly itemId: string
  readonly partId: string
  /** How many stand on the shelf, and how many may go out by the factor. */
  readonly quantity: number
  readonly places: number
  readonly used: number
  /** Where it runs short: what one more piece would add, in units of the aim, at most. */
  readonly oneMore?: number | undefined
}

export type Matching = {
  readonly versions: Readonly<Record<'facts' | 'rules' | 'gain' | 'matching', string>>
  readonly at: string
  readonly ask: MatchAsk
  readonly offers: readonly MatchedOffer[]
  readonly leftOut: readonly LeftOut[]
  readonly items: readonly ItemOutcome[]
  readonly companions: readonly CompanionOutcome[]
  readonly totalPct: number
  readonly totalMarginMinor?: Minor | undefined
  /** Of the best matching as if companions never ran short. */
  readonly certificate: Certificate
  /**
   * Only where they do: what these offers are worth together, and the most that any could be that take no more of anything than there
   * is, in units of the aim. Equal where this is proved the best.
   */
  readonly packing?: { readonly worth: number; readonly bound: number } | undefined
  /** Customers and kinds of machine that were looked at. */
  readonly customers: number
  readonly machineKinds: number
}

/**
 * Which customer is offered which item, so that all offers together are worth the most: one offer a customer, of each item no
 * more than its places. Deterministic: customers and items are sorted by id first, of equals the one who waited longest gets it. A
 * customer with several machines is offered the best of them. An offer is one item with the cheapest companions that rules demand.
 *
 * Exact, with a certificate that is checked here over every pair, as long as companions last, or can be had again. Where they
 * are counted and would run short it is a packing problem: then the offers keep to all stocks, and `packing` says how far they can be
 * from the best (sharedStock.ts).
 */
export function matchShelf(
  { ask, shop, customers, at }: MatchInputs,
  onProgress: (done: number, of: number) => void = () => {},
): Matching {
  const model = modelOf(shop)
  const bench = benchOf(shop, model, at)
  const items = chosenItems(ask, shop)
  const sorted = [...customers].sort((a, b) => byText(a.id, b.id))
  const pairs = lookAtPairs(sorted, items, ask, bench, at, onProgress)
  const assigned = assign(pairs.table)
  const certificate = checkCertificate(pairs.table, assigned)
  const plain: Packed = {
    ...{ short: [], waysOf: new Map() },
    out: {
      ...{ itemOf: assigned.itemOf, wayOf: assigned.itemOf, worth: 0, bound: 0, rounds: 0 },
      itemPrices: assigned.prices.map((price) => valueOfPrice(price, assigned.scale)),
      companionPrices: new Float64Array(),
    },
  }
  const places = companionPlaces(shop, ask)
  const over = [...usedBy(offered(plain, pairs, items))].filter(([id, n]) => n > (places.get(id) ?? 0))
  const isShort = ask.companions === 'counted' && over.length > 0
  const packed = isShort
    ? packOffers(
        over.map(([id]) => id),
        pairs,
        sorted,
        items,
        { ask, shop },
        bench,
        onProgress,
      )
    : plain
  const going = offered(packed, pairs, items)
  const offers = going.map((one) => offerOf(sorted[one.i] as MatchCustomer, one, pairs, items, ask))
  const gets = new Set(going.map(({ i }) => i))
  const offeredOf = new Int32Array(items.length)
  for (const { j } of going) offeredOf[j] = (offeredOf[j] as number) + 1
  const leftOut = sorted.flatMap((customer, i) =>
    gets.has(i) ? [] : [outOf(customer, i, pairs, packed, items, offeredOf)],
  )
  const couldGo = new Int32Array(items.length)
  pairs.table.values.forEach((value, pair) => {
    const j = pair % items.length
    if (value > 0) couldGo[j] = (couldGo[j] as number) + 1
  })
  const margins = offers.flatMap(({ marginMinor }) => marginMinor ?? [])
  onProgress(sorted.length, sorted.length)
  return {
    versions: {
      ...{ facts: FACTS_VERSION, rules: RULES_VERSION, gain: model.name },
      matching: MATCHING_VERSION,
    },
    ...{ at, ask, offers, leftOut, certificate },
    ...(isShort && { packing: { worth: packed.out.worth, bound: packed.out.bound } }),
    items: items.map(({ item, quantity }, j) => ({
      ...{ itemId: item.id, partId: item.partId, quantity, places: pairs.table.places[j] as number },
      offered: offeredOf[j] as number,
      couldGo: couldGo[j] as number,
      oneMore: packed.out.itemPrices[j] as number,
    })),
    companions: companionsOf(packed, usedBy(going), places, shop),
    totalPct: offers.reduce((sum, { useful }) => sum + useful.pct, 0),
    ...(margins.length === offers.length &&
      offers.length > 0 && { totalMarginMinor: margins.reduce((a, b) => a + b, 0) }),
    ...{ customers: sorted.length, machineKinds: bench.kinds() },
  }
}

export const modelOf = ({ gain, runs, policy }: MatchShop) =>
  gain?.model === MODEL_NAME ? modelOfExcerpt(gain) : measuredModel(runs, policy)

function offerOf(
  { id }: MatchCustomer,
  { i, j, of, told, value }: ReturnType<typeof offered>[number],
  { could, table }: Pairs,
  items: readonly Item[],
  ask: MatchAsk,
): MatchedOffer {
  const item = items[j] as Item
  const worthOf = (k: number): number => table.values[i * table.items + k] as number
  const k = items.reduce(
    (best, _, k) => (k !== j && worthOf(k) > (best < 0 ? 0 : worthOf(best)) ? k : best),
    -1,
  )
  const other = could(i, k)
  const next = other && {
    ...{ itemId: (items[k] as Item).item.id, pct: other.told.useful.pct, value: other.value },
  }
  const marginMinor = ask.aim === 'gain' ? undefined : marginOf(item)
  return {
    ...told.way,
    ...{ customerId: id, machineTag: of.machine.tag, itemId: item.item.id, questionId: of.question.id },
    ...{ useful: told.useful, value },
    ...(marginMinor !== undefined && { marginMinor }),
    ...(next && { next }),
  }
}

/** Why a customer gets none: what bars them, the reason nearest to an offer, or who gains more by what there is. */
function outOf(
  { id }: MatchCustomer,
  i: number,
  { could, barred, nearest, table }: Pairs,
  { out, short, waysOf }: Packed,
  items: readonly Item[],
  offeredOf: Int32Array,
): LeftOut {
  const bar = barred.get(i)
  if (bar !== undefined) return { customerId: id, ...bar }
  const shortOf = ({ told }: Could, j: number) =>
    companionItems(told, (items[j] as Item).item.id).filter((item) => short.includes(item))
  const besideOf = (one: Could, j: number): number =>
    shortOf(one, j).reduce((sum, item) => sum + (out.companionPrices[short.indexOf(item)] as number), 0)
  // Of every item the way that is worth most above its prices; what takes nothing that is short has no list.
  const ways = items.flatMap((_, j) => {
    const pair = i * table.items + j
    const value = table.values[pair] as number
    if (value === 0) return []
    const price = out.itemPrices[j] as number
    const list: readonly (Could | undefined)[] = waysOf.get(pair) ?? [undefined]
    return list.map((way) => {
      const priceValue = price + (way === undefined ? 0 : besideOf(way, j))
      return { way, j, priceValue, above: (way?.value ?? value) - priceValue }
    })
  })
  const [best] = ways.sort((a, b) => b.above - a.above || a.j - b.j)
  const way = best && (best.way ?? could(i, best.j))
  if (best === undefined || way === undefined)
    return { customerId: id, ...(nearest(i) ?? { reason: 'no item was chosen' }) }
  const { j, priceValue } = best
  const isLeft = (offeredOf[j] as number) < (table.places[j] as number)
  const [shortItemId] = shortOf(way, j)
  const isBesideIt = isLeft && shortItemId !== undefined
  return {
    ...{ customerId: id, machineTag: way.of.machine.tag },
    ...{ reason: isBesideIt ? 'too few beside it' : 'others gain more' },
    ...(isBesideIt && { shortItemId }),
    ...{ itemId: (items[j] as Item).item.id, pct: way.told.useful.pct, netMinor: way.told.way.netMinor },
    ...{ value: way.value, priceValue },
  }
}

/** What goes along, by item id; of what runs short also what one more would be worth. */
function companionsOf(
  { out, short }: Packed,
  used: ReadonlyMap<string, number>,
  places: ReadonlyMap<string, number>,
  { shelf }: MatchShop,
): CompanionOutcome[] {
  return [...new Set([...used.keys(), ...short])].sort(byText).flatMap((itemId) => {
    const item = shelf.find(({ id }) => id === itemId)
    const r = short.indexOf(itemId)
    return item === undefined
      ? []
      : [
          {
            ...{ itemId, partId: item.partId, quantity: item.quantity, places: places.get(itemId) ?? 0 },
            used: used.get(itemId) ?? 0,
            ...(r >= 0 && { oneMore: out.companionPrices[r] as number }),
          },
        ]
  })
}
