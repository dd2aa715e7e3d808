import { byText } from '../gain/cellOf.ts'
import type { Minor } from '../money.ts'
import { GAIN_KINDS } from '../ranking/shelf.ts'
import type { ShelfItem } from '../shop.ts'
import type { CustomersMachine, MatchAsk, MatchCustomer, MatchShop } from './ask.ts'
import { placesOf } from './ask.ts'
import {
  type Barred,
  barOf,
  isAboveCeiling,
  isNearer,
  type LeftBecause,
  type Reason,
  waitedDays,
} from './leftOut.ts'
import type { Table } from './table.ts'
import { type Asking, type Bench, type Glance, isWay, type Told, type Worth } from './worth.ts'

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
  /** What stands behind a value of the table; undefined where it is 0. Worked out anew: to keep it for all pairs would fill the memory. */
  readonly could: (i: number, j: number) => Could | undefined
  /** Machines that were looked at, alike ones one after the other, with the place of their customer. */
  readonly machines: readonly { readonly i: number; readonly of: Asking }[]
  /** Who is not looked at at all. */
  readonly barred: ReadonlyMap<number, Barred>
  /** The reason that came nearest to an offer. */
  readonly nearest: (i: number) => Reason | undefined
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

/** The machine that an item came nearest to an offer with, and how near. */
type Near = { readonly of: Asking; readonly j: number; readonly reason: LeftBecause; readonly pct: number }

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
  const waited = Int32Array.from(customers, (customer) => waitedDays(customer, at))
  const barred = new Map<number, Barred>()
  const near = new Map<number, Near>()
  const machines: { readonly i: number; readonly of: Asking; readonly kind: number }[] = []
  customers.forEach((customer, i) => {
    const bar = barOf(customer, ask, at)
    if (bar !== undefined) barred.set(i, bar)
    else for (const of of customer.machines.filter(isAsked)) machines.push({ i, of, kind: bench.kindOf(of) })
  })
  // Machines that are alike one after the other, so that what the rules say of one kind need not be kept for all.
  machines.sort((a, b) => a.kind - b.kind || a.i - b.i)
  machines.forEach(({ i, of }, done) => {
    if (done % 8 === 0) onProgress(done, machines.length)
    const { glance } = bench.stand(of)
    const ceilingMinor = of.question.budgetMinor
    items.forEach((item, j) => {
      const seen = glance(item.item)
      const value = 'because' in seen ? 0 : valueTo(seen.pct, ask, item)
      const reason = whyNot(seen, value, ask, ceilingMinor)
      if (reason === undefined) values[i * n + j] = Math.max(values[i * n + j] as number, value)
      else {
        const pct = 'because' in seen ? 0 : seen.pct
        const before = near.get(i)
        if (isNearer({ reason, pct }, before)) near.set(i, { of, j, reason, pct })
      }
    })
  })
  const could = (i: number, j: number): Could | undefined => {
    const value = values[i * n + j] as number
    const item = items[j]
    if (value === 0 || item === undefined) return undefined
    for (const of of (customers[i] as MatchCustomer).machines.filter(isAsked)) {
      const told = bench.stand(of).worth(item.item)
      if (isWay(told) && isOffer(told, of, ask, item) && valueTo(told.useful.pct, ask, item) === value)
        return { of, told, value }
    }
    return undefined
  }
  const nearest = (i: number): Reason | undefined => {
    const one = near.get(i)
    if (one === undefined) return undefined
    const { item } = items[one.j] as Item
    return reasonWith(one, bench.stand(one.of).worth(item), item.id)
  }
  const places = Int32Array.from(items, ({ quantity }) => placesOf(quantity, ask.overOffer))
  return {
    table: { customers: customers.length, items: n, values, waited, places },
    could,
    machines,
    barred,
    nearest,
  }
}

export const isAsked = (of: CustomersMachine): of is Asking =>
  of.question?.wanted.some(({ weight }) => weight > 0) === true

export const marginOf = ({ item, costMinor }: Item): Minor | undefined =>
  costMinor === undefined ? undefined : item.priceMinor - costMinor

/** What a gain is worth to the aim, a whole number; 0 or below is no offer. */
export function valueTo(pct: number, ask: MatchAsk, item: Item): number {
  const margin = marginOf(item) ?? 0
  const value =
    ask.aim === 'gain'
      ? pct * VALUE_PARTS.gain
      : ask.aim === 'margin'
        ? margin
        : pct * (ask.percentMinor ?? 0) + margin
  return Math.min(VALUE_MOST, Math.round(value))
}

/** Whether a way is an offer: worth a mail, sure to gain, within what the owner named, no loss. */
export const isOffer = ({ useful, way }: Told, { question }: Asking, ask: MatchAsk, item: Item): boolean =>
  whyNot(
    { pct: useful.pct, pctLow: useful.pctLow, netMinor: way.netMinor, beside: [] },
    valueTo(useful.pct, ask, item),
    ask,
    question.budgetMinor,
  ) === undefined

function whyNot(
  seen: Glance,
  value: number,
  { smallestGainPct }: MatchAsk,
  ceilingMinor: Minor | undefined,
): LeftBecause | undefined {
  if ('because' in seen) return seen.because
  if (seen.pct < smallestGainPct) return 'gain too small'
  if (!(seen.pctLow > 0)) return 'gain not sure'
  if (isAboveCeiling(seen.netMinor, ceilingMinor)) return 'above the ceiling'
  return value <= 0 ? 'sold at a loss' : undefined
}

/** A reason with its figures. */
function reasonWith({ of, reason }: Near, worth: Worth, itemId: string): Reason {
  const at = { machineTag: of.machine.tag, itemId, reason }
  if (!isWay(worth))
    return {
      ...at,
      ...('missing' in worth && { missing: worth.missing }),
      ...('findings' in worth && { rules: worth.findings.map(({ rule }) => rule) }),
    }
  const { budgetMinor: ceilingMinor } = of.question
  return {
    ...{ ...at, pct: worth.useful.pct, netMinor: worth.way.netMinor },
    ...(reason === 'above the ceiling' && { ceilingMinor }),
  }
}
