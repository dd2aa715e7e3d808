import { byText } from '../gain/cellOf.ts'
import type { Minor } from '../money.ts'
import { GAIN_KINDS } from '../ranking/shelf.ts'
import type { ShelfItem } from '../shop.ts'
import type { CustomersMachine, MatchAsk, MatchCustomer, MatchShop } from './ask.ts'
import { placesOf } from './ask.ts'
import { type Barred, barOf, type Reason, waitedDays, worstReason } from './leftOut.ts'
import type { Table } from './table.ts'
import { type Asking, type Bench, isWay, type Told, type Worth } from './worth.ts'

/** Units of the aim in what people read: percent of gain, or minor units. Values are whole numbers of parts of these. */
export const VALUE_PARTS = { gain: 10_000, margin: 1, mix: 1 } as const

/** Values of one pair are held below this, so that sums stay exact: 100,000 % of gain, or as much in minor units. */
const VALUE_MOST = 1_000_000_000

/** An item that is to be offered. */
export type Item = {
  readonly item: ShelfItem
  readonly quantity: number
  readonly costMinor?: Minor | undefined
}

/** What one customer could be offered of an item: for the machine it does most for. */
export type Could = { readonly of: Asking; readonly told: Told; readonly value: number }

/** Every customer against every item. */
export type Pairs = {
  readonly table: Table
  /** By customer and item; undefined where it is no offer. */
  readonly could: readonly (readonly (Could | undefined)[])[]
  /** Who is not looked at at all. */
  readonly barred: ReadonlyMap<number, Barred>
  /** The reason that came nearest to an offer, by customer. */
  readonly nearest: readonly (Reason | undefined)[]
}

/** The chosen items in order of their ids; what moves no frame rate cannot be offered for its gain. */
export function chosenItems(ask: MatchAsk, { shelf, parts }: MatchShop): Item[] {
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

/** Looks at every customer and item. */
export function lookAtPairs(
  customers: readonly MatchCustomer[],
  items: readonly Item[],
  ask: MatchAsk,
  bench: Bench,
  at: string,
  onProgress: (done: number, of: number) => void,
): Pairs {
  const n = items.length
  const values = new Int32Array(customers.length * n)
  const waited = new Int32Array(customers.length)
  const barred = new Map<number, Barred>()
  const could: (Could | undefined)[][] = []
  const nearest: (Reason | undefined)[] = []
  customers.forEach((customer, i) => {
    if (i % 8 === 0) onProgress(i, customers.length)
    waited[i] = waitedDays(customer, at)
    const mine: (Could | undefined)[] = new Array(n)
    could.push(mine)
    const bar = barOf(customer, ask, at)
    if (bar !== undefined) {
      barred.set(i, bar)
      nearest.push(undefined)
      return
    }
    let near: Reason | undefined
    for (const of of customer.machines.filter(isAsked)) {
      items.forEach((item, j) => {
        const worth = bench.worth(of, item.item)
        const value = isWay(worth) ? valueTo(worth, ask, item) : 0
        const reason = reasonOf(worth, value, ask, of, item.item.id)
        if (reason !== undefined) near = worstReason(near, reason)
        else if (isWay(worth) && value > (values[i * n + j] as number)) {
          values[i * n + j] = value
          mine[j] = { of, told: worth, value }
        }
      })
    }
    nearest.push(near)
  })
  const places = Int32Array.from(items, ({ quantity }) => placesOf(quantity, ask.overOffer))
  return { table: { customers: customers.length, items: n, values, waited, places }, could, barred, nearest }
}

export const isAsked = (of: CustomersMachine): of is Asking =>
  of.question?.wanted.some(({ weight }) => weight > 0) === true

export const marginOf = ({ item, costMinor }: Item): Minor | undefined =>
  costMinor === undefined ? undefined : item.priceMinor - costMinor

/** What a way is worth to the aim, a whole number; 0 or below is no offer. */
export function valueTo({ useful: { pct } }: Told, ask: MatchAsk, item: Item): number {
  const margin = marginOf(item) ?? 0
  const value =
    ask.aim === 'gain'
      ? pct * VALUE_PARTS.gain
      : ask.aim === 'margin'
        ? margin
        : pct * (ask.percentMinor ?? 0) + margin
  return Math.min(VALUE_MOST, Math.round(value))
}

/** Why a pair is no offer; undefined where it is one. */
export function reasonOf(
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
