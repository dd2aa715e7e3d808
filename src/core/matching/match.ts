import { FACTS_VERSION } from '../facts/version.ts'
import type { Missing } from '../fit/finding.ts'
import { RULES_VERSION } from '../fit/rules.ts'
import { byText } from '../gain/cellOf.ts'
import { measuredModel } from '../gain/measured.ts'
import { MODEL_NAME, modelOfExcerpt } from '../gain/model/index.ts'
import type { Minor } from '../money.ts'
import type { UsefulGain } from '../ranking/option.ts'
import { GAIN_KINDS } from '../ranking/shelf.ts'
import type { ShelfItem } from '../shop.ts'
import type { CustomersMachine, MatchAsk, MatchCustomer, MatchInputs, MatchShop } from './ask.ts'
import { placesOf } from './ask.ts'
import { assign } from './assign.ts'
import { type Certificate, checkCertificate } from './certificate.ts'
import { type Barred, barOf, type LeftBecause, type Reason, waitedDays, worstReason } from './leftOut.ts'
import { type Table, valueOfPrice } from './table.ts'
import { benchOf, isWay, type Way, type Worth } from './worth.ts'

/** Raise it when the same inputs would be matched in another way. */
export const MATCHING_VERSION = '1'

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

export type Matching = {
  readonly versions: Readonly<Record<'facts' | 'rules' | 'gain' | 'matching', string>>
  readonly at: string
  readonly ask: MatchAsk
  readonly offers: readonly MatchedOffer[]
  readonly leftOut: readonly LeftOut[]
  readonly items: readonly ItemOutcome[]
  readonly totalPct: number
  readonly totalMarginMinor?: Minor | undefined
  readonly certificate: Certificate
  /** Customers and kinds of machine that were looked at. */
  readonly customers: number
  readonly machineKinds: number
}

/** Units of the aim in what people read: percent of gain, or minor units. Values are whole numbers of parts of these. */
export const VALUE_PARTS = { gain: 10_000, margin: 1, mix: 1 } as const

/** Values of one pair are held below this, so that sums stay exact: 100,000 % of gain, or as much in minor units. */
const VALUE_MOST = 1_000_000_000

type Told = { readonly of: Worth; readonly tag: string; readonly questionId: string; readonly value: number }

/**
 * Which customer is offered which item, so that all offers together are worth the most: one offer a customer, of each item no
 * more than its places. Exact, with a certificate that is checked here over every pair. Deterministic: customers
 * and items are sorted by id first, of equals the one who waited longest gets it. A customer with several machines is
 * offered the best of them. An offer is one item with the cheapest companions that rules demand; companions are taken as
 * parts that can be had again, so only the item itself is counted (a companion may run out: the shelf says how many there are).
 */
export function matchShelf(
  { ask, shop, customers, at }: MatchInputs,
  onProgress: (done: number, of: number) => void = () => {},
): Matching {
  const model = modelOf(shop)
  const bench = benchOf(shop, model, at)
  const items = chosenItems(ask, shop)
  const sorted = [...customers].sort((a, b) => byText(a.id, b.id))
  const n = items.length
  const values = new Int32Array(sorted.length * n)
  const waited = new Int32Array(sorted.length)
  const barred = new Map<number, Barred>()
  /** What was told of each pair with a value; of the others the reason that came nearest. */
  const told: (Told | undefined)[][] = []
  const nearest: (Reason | undefined)[] = []
  sorted.forEach((customer, i) => {
    if (i % 8 === 0) onProgress(i, sorted.length)
    waited[i] = waitedDays(customer, at)
    told.push(new Array(n))
    const bar = barOf(customer, ask, at)
    if (bar !== undefined) {
      barred.set(i, bar)
      nearest.push(undefined)
      return
    }
    let near: Reason | undefined
    for (const of of customer.machines) {
      if (!isAsked(of)) continue
      for (let j = 0; j < n; j++) {
        const { item, costMinor } = items[j] as (typeof items)[number]
        const worth = bench.worth(of, item)
        const value = worthTo(worth, ask, item, costMinor)
        const reason = reasonOf(worth, value, ask, of, item.id)
        if (reason !== undefined) near = worstReason(near, reason)
        else if (value > (values[i * n + j] as number)) {
          values[i * n + j] = value
          ;(told[i] as (Told | undefined)[])[j] = {
            ...{ of: worth, tag: of.machine.tag, questionId: of.question.id, value },
          }
        }
      }
    }
    nearest.push(near)
  })
  const table: Table = {
    ...{ customers: sorted.length, items: n, values, waited },
    places: Int32Array.from(items, ({ quantity }) => placesOf(quantity, ask.overOffer)),
  }
  const assigned = assign(table)
  const certificate = checkCertificate(table, assigned)
  const priceValue = (j: number) => valueOfPrice(assigned.prices[j] as number, assigned.scale)
  const offers: MatchedOffer[] = []
  const leftOut: LeftOut[] = []
  sorted.forEach((customer, i) => {
    const mine = told[i] as (Told | undefined)[]
    const j = assigned.itemOf[i] as number
    if (j >= 0) offers.push(offerOf(customer, mine, j, items, ask))
    else leftOut.push(outOf(customer, mine, barred.get(i), nearest[i], items, priceValue))
  })
  const offered = (j: number) => assigned.itemOf.reduce((sum, k) => sum + Number(k === j), 0)
  const margins = offers.flatMap(({ marginMinor }) => marginMinor ?? [])
  onProgress(sorted.length, sorted.length)
  return {
    versions: {
      ...{ facts: FACTS_VERSION, rules: RULES_VERSION, gain: model.name },
      matching: MATCHING_VERSION,
    },
    ...{ at, ask, offers, leftOut, certificate },
    items: items.map(({ item, quantity }, j) => ({
      ...{ itemId: item.id, partId: item.partId, quantity, places: table.places[j] as number },
      ...{ offered: offered(j), couldGo: told.filter((row) => row[j] !== undefined).length },
      oneMore: priceValue(j),
    })),
    totalPct: offers.reduce((sum, { useful }) => sum + useful.pct, 0),
    ...(margins.length === offers.length &&
      offers.length > 0 && { totalMarginMinor: margins.reduce((a, b) => a + b, 0) }),
    ...{ customers: sorted.length, machineKinds: bench.kinds() },
  }
}

export const modelOf = ({ gain, runs, policy }: MatchShop) =>
  gain?.model === MODEL_NAME ? modelOfExcerpt(gain) : measuredModel(runs, policy)

type Item = { readonly item: ShelfItem; readonly quantity: number; readonly costMinor?: Minor | undefined }

/** The chosen items in order of their ids; what moves no frame rate cannot be offered for its gain. */
function chosenItems(ask: MatchAsk, { shelf, parts }: MatchShop): Item[] {
  const kindOf = new Map(parts.map((part) => [part.id, part.kind]))
  return [...ask.items]
    .sort((a, b) => byText(a.itemId, b.itemId))
    .flatMap(({ itemId, quantity, costMinor }) => {
      const item = shelf.find(({ id }) => id === itemId)
      const kind = item && kindOf.get(item.partId)
      if (item === undefined || kind === undefined || !GAIN_KINDS.has(kind)) return []
      return [{ item, quantity, costMinor }]
    })
}

const isAsked = (
  of: CustomersMachine,
): of is CustomersMachine & { question: NonNullable<CustomersMachine['question']> } =>
  of.question?.wanted.some(({ weight }) => weight > 0) === true

const marginOf = (item: ShelfItem, costMinor: Minor | undefined): Minor | undefined =>
  costMinor === undefined ? undefined : item.priceMinor - costMinor

/** What a pair is worth to the aim, a whole number; 0 or below is no offer. */
function worthTo(worth: Worth, ask: MatchAsk, item: ShelfItem, costMinor: Minor | undefined): number {
  if (!isWay(worth)) return 0
  const margin = marginOf(item, costMinor) ?? 0
  const { pct } = worth.useful
  const value =
    ask.aim === 'gain'
      ? pct * VALUE_PARTS.gain
      : ask.aim === 'margin'
        ? margin
        : pct * (ask.percentMinor ?? 0) + margin
  return Math.min(VALUE_MOST, Math.round(value))
}

/** Why a pair is no offer; undefined where it is one. */
function reasonOf(
  worth: Worth,
  value: number,
  { smallestGainPct }: MatchAsk,
  { machine, question }: CustomersMachine,
  itemId: string,
): Reason | undefined {
  const at = { machineTag: machine.tag, itemId }
  if (!isWay(worth)) {
    const { because } = worth
    return {
      ...at,
      reason: because,
      ...('missing' in worth && { missing: worth.missing }),
      ...('findings' in worth && { rules: worth.findings.map(({ rule }) => rule) }),
    }
  }
  const { useful, way } = worth
  const figures = { ...at, pct: useful.pct, netMinor: way.netMinor }
  if (useful.pct < smallestGainPct) return { ...figures, reason: 'gain too small' }
  if (!(useful.pctLow > 0)) return { ...figures, reason: 'gain not sure' }
  const ceilingMinor = question?.budgetMinor
  if (ceilingMinor !== undefined && way.netMinor > ceilingMinor)
    return { ...figures, reason: 'above the ceiling', ceilingMinor }
  if (value <= 0) return { ...figures, reason: 'sold at a loss' }
  return undefined
}

function offerOf(
  { id }: MatchCustomer,
  mine: readonly (Told | undefined)[],
  j: number,
  items: readonly Item[],
  ask: MatchAsk,
): MatchedOffer {
  const { of, tag, questionId, value } = mine[j] as Told
  if (!isWay(of)) throw new Error('an offer without a way')
  const { item, costMinor } = items[j] as Item
  const others = mine.flatMap((one, k) =>
    one === undefined || k === j || !isWay(one.of)
      ? []
      : [{ itemId: (items[k] as Item).item.id, pct: one.of.useful.pct, value: one.value }],
  )
  const [next] = others.sort((a, b) => b.value - a.value || byText(a.itemId, b.itemId))
  const marginMinor = ask.aim === 'gain' ? undefined : marginOf(item, costMinor)
  return {
    ...of.way,
    ...{ customerId: id, machineTag: tag, itemId: item.id, questionId, useful: of.useful, value },
    ...(marginMinor !== undefined && { marginMinor }),
    ...(next && { next }),
  }
}

function outOf(
  { id }: MatchCustomer,
  mine: readonly (Told | undefined)[],
  bar: Barred | undefined,
  near: Reason | undefined,
  items: readonly Item[],
  priceValue: (j: number) => number,
): LeftOut {
  if (bar !== undefined) return { customerId: id, ...bar }
  const could = mine.flatMap((one, j) => (one === undefined ? [] : [{ one, j }]))
  const above = ({ one, j }: (typeof could)[number]) => one.value - priceValue(j)
  const [best] = could.sort((a, b) => above(b) - above(a) || a.j - b.j)
  if (best === undefined || !isWay(best.one.of))
    return { customerId: id, ...(near ?? { reason: 'no item was chosen' as const }) }
  return {
    ...{ customerId: id, machineTag: best.one.tag, reason: 'others gain more' },
    ...{ itemId: (items[best.j] as Item).item.id, pct: best.one.of.useful.pct },
    ...{ netMinor: best.one.of.way.netMinor, value: best.one.value, priceValue: priceValue(best.j) },
  }
}
