import { assign, type OnProgress } from './assign.ts'
import { checkCertificate } from './certificate.ts'
import type { Table } from './table.ts'

/** One way to make an offer of a pair: what it is worth, and the companions it takes, one piece each. */
export type SharedWay = { readonly value: number; readonly uses: readonly number[] }

/** A table whose offers take companions besides, of which there are only so many. */
export type SharedStock = {
  /** `values` are those of the best way of each pair. */
  readonly table: Table
  /** Pieces of each companion. */
  readonly stock: Int32Array
  /** By `customer * items + item`: every way of that pair that might be needed. A pair that is not in it takes none of these companions. */
  readonly ways: ReadonlyMap<number, readonly SharedWay[]>
}

/** Who gets what in which way, and how far from the best that can be at most. Sums of values, without the waits. */
export type SharedOut = {
  /** The item of each customer; -1 for none. */
  readonly itemOf: Int32Array
  /** The place of the way in the list of its pair; -1 where the pair has no list. */
  readonly wayOf: Int32Array
  readonly worth: number
  /** No sharing out can be worth more; equal to `worth` where this one is proved the best. */
  readonly bound: number
  /** What one more piece would add at most, of each item and of each companion, by the bound. */
  readonly itemPrices: Float64Array
  readonly companionPrices: Float64Array
  readonly rounds: number
}

const ROUNDS_MOST = 200
/** So many looks at a pair in all: fewer rounds for a large table. */
const LOOKS_MOST = 400_000_000
/** Rounds without a better bound after which steps get half as long. */
const PATIENCE = 6
/** Steps shorter than this move prices by next to nothing. */
const SHORTEST_STRIDE = 1 / 64

/**
 * Shares out items and companions together. That is a packing problem, so the best is not always found; what is found obeys all
 * stocks, and the bound says how much more there could be.
 *
 * The bound: each companion gets a price of 0 or more, and an offer that takes it is worth so much less. For any such prices no
 * sharing out is worth more than the best of the table at these values, plus `stock x price` (Lagrangian duality: Fisher, Management
 * Science 27, 1981, from memory). The table is solved exactly, and its certificate is checked, so every bound holds. Prices move by
 * the subgradient, in steps after Polyak. From each round's matching a sharing out within all stocks is made, and the best of them kept.
 */
export function shareStock(shared: SharedStock, onProgress: OnProgress = () => {}): SharedOut {
  const { table, stock } = shared
  const pairs = Math.max(1, table.customers * table.items)
  const rounds = Math.max(4, Math.min(ROUNDS_MOST, Math.floor(LOOKS_MOST / pairs)))
  let prices: Float64Array = new Float64Array(stock.length)
  let bound = Number.POSITIVE_INFINITY
  let boundPrices: Record<'items' | 'companions', Float64Array> = {
    items: new Float64Array(table.items),
    companions: prices,
  }
  let best: Packed | undefined
  let [stride, waits, done] = [1, 0, 0]
  while (done < rounds) {
    onProgress(done++, rounds)
    const reduced = atPrices(shared, prices)
    const assigned = assign(reduced)
    const certificate = checkCertificate(reduced, assigned)
    if (!certificate.holds) throw new Error('a certificate that does not hold')
    const here = Number(certificate.bound) + stock.reduce((sum, n, r) => sum + n * (prices[r] as number), 0)
    waits = here < bound ? 0 : waits + 1
    if (here < bound) {
      bound = here
      boundPrices = { items: assigned.prices, companions: prices }
    }
    const packed = packedFrom(shared, assigned.itemOf, prices)
    if (best === undefined || packed.worth > best.worth) best = packed
    if (best.worth === bound) break
    if (waits >= PATIENCE) [stride, waits] = [stride / 2, 0]
    if (stride < SHORTEST_STRIDE) break
    const over = overUse(shared, assigned.itemOf, prices)
    const length = over.reduce((sum, n) => sum + n * n, 0)
    if (length === 0) break
    const step = (stride * Math.max(1, here - best.worth)) / length
    prices = prices.map((price, r) => Math.max(0, Math.round(price + step * (over[r] as number))))
  }
  const found = improved(shared, best as Packed)
  return {
    ...{ itemOf: found.itemOf, wayOf: found.wayOf, worth: found.worth, bound, rounds: done },
    ...{ itemPrices: boundPrices.items, companionPrices: boundPrices.companions },
  }
}

/** What a way is worth less the prices of what it takes. */
const netOf = ({ value, uses }: SharedWay, prices: Float64Array): number =>
  uses.reduce((left, r) => left - (prices[r] as number), value)

/** The way that is worth most at these prices, the first of equals; -1 where none is worth anything. */
function bestWay(ways: readonly SharedWay[], prices: Float64Array): number {
  let [best, most] = [-1, 0]
  ways.forEach((way, w) => {
    const net = netOf(way, prices)
    if (net > most) [best, most] = [w, net]
  })
  return best
}

/** The table with the companions paid for. Waits are left out: they settle nothing between prices. */
function atPrices({ table, ways }: SharedStock, prices: Float64Array): Table {
  const values = table.values.slice()
  for (const [pair, list] of ways) {
    const w = bestWay(list, prices)
    values[pair] = w < 0 ? 0 : netOf(list[w] as SharedWay, prices)
  }
  return { customers: table.customers, items: table.items, places: table.places, values }
}

/** By how many pieces a matching takes more of each companion than there are; below 0 what it leaves. */
function overUse(shared: SharedStock, itemOf: Int32Array, prices: Float64Array): number[] {
  const over = [...shared.stock].map((n) => -n)
  itemOf.forEach((j, i) => {
    const list = j < 0 ? undefined : shared.ways.get(i * shared.table.items + j)
    const way = list?.[bestWay(list, prices)]
    for (const r of way?.uses ?? []) over[r] = (over[r] as number) + 1
  })
  return over
}

/** A sharing out that obeys all stocks, with what it leaves. */
type Packed = {
  readonly itemOf: Int32Array
  readonly wayOf: Int32Array
  readonly places: Int32Array
  readonly stock: Int32Array
  worth: number
}

const NO_USES: readonly number[] = []

const isFree = ({ places, stock }: Packed, j: number, uses: readonly number[]): boolean =>
  (places[j] as number) > 0 && uses.every((r) => (stock[r] as number) > 0)

function put(
  { table, ways }: SharedStock,
  packed: Packed,
  i: number,
  j: number,
  w: number,
  sign: 1 | -1,
): void {
  const way = w < 0 ? undefined : ways.get(i * table.items + j)?.[w]
  const value = way?.value ?? (table.values[i * table.items + j] as number)
  for (const r of way?.uses ?? NO_USES) packed.stock[r] = (packed.stock[r] as number) - sign
  packed.places[j] = (packed.places[j] as number) - sign
  packed.itemOf[i] = sign > 0 ? j : -1
  packed.wayOf[i] = sign > 0 ? w : -1
  packed.worth += sign * value
}

type Choice = { readonly j: number; readonly w: number; readonly value: number }

/** The offers of one customer, the most valuable first, of equals the lower item. */
function choicesOf({ table, ways }: SharedStock, i: number): Choice[] {
  const choices: Choice[] = []
  for (let j = 0; j < table.items; j++) {
    const pair = i * table.items + j
    const list = ways.get(pair)
    const value = table.values[pair] as number
    if (list === undefined) {
      if (value > 0) choices.push({ j, w: -1, value })
    } else for (const [w, way] of list.entries()) if (way.value > 0) choices.push({ j, w, value: way.value })
  }
  return choices.sort((a, b) => b.value - a.value || a.j - b.j || a.w - b.w)
}

const usesOf = (
  { table, ways }: SharedStock,
  i: number,
  { j, w }: Pick<Choice, 'j' | 'w'>,
): readonly number[] => (w < 0 ? NO_USES : (ways.get(i * table.items + j)?.[w]?.uses ?? NO_USES))

/** The best offer of a customer that what is left allows. */
const freeChoice = (shared: SharedStock, packed: Packed, i: number): Choice | undefined =>
  choicesOf(shared, i).find((choice) => isFree(packed, choice.j, usesOf(shared, i, choice)))

/** Keeps of a matching what stocks allow, the most valuable first, of equals who waited longest; then fills up with the others. */
function packedFrom(shared: SharedStock, itemOf: Int32Array, prices: Float64Array): Packed {
  const { table, ways, stock } = shared
  const n = table.customers
  const packed: Packed = {
    ...{ itemOf: new Int32Array(n).fill(-1), wayOf: new Int32Array(n).fill(-1) },
    ...{ places: table.places.slice(), stock: stock.slice(), worth: 0 },
  }
  const most = Array.from({ length: n }, (_, i) => {
    const j = itemOf[i] as number
    if (j >= 0) return table.values[i * table.items + j] as number
    let value = 0
    for (let k = 0; k < table.items; k++) value = Math.max(value, table.values[i * table.items + k] as number)
    return value
  })
  const waited = (i: number): number => table.waited?.[i] ?? 0
  const order = [...most.keys()]
    .filter((i) => (most[i] as number) > 0)
    .sort((a, b) => (most[b] as number) - (most[a] as number) || waited(b) - waited(a) || a - b)
  const late: number[] = []
  for (const i of order) {
    const j = itemOf[i] as number
    const list = j < 0 ? undefined : ways.get(i * table.items + j)
    const w = list === undefined ? -1 : bestWay(list, prices)
    const isTaken = j >= 0 && (list === undefined || w >= 0) && isFree(packed, j, usesOf(shared, i, { j, w }))
    if (isTaken) put(shared, packed, i, j, w, 1)
    else late.push(i)
  }
  for (const i of late) {
    if (packed.places.every((left) => left === 0)) break
    const choice = freeChoice(shared, packed, i)
    if (choice !== undefined) put(shared, packed, i, choice.j, choice.w, 1)
  }
  return packed
}

const SWEEPS_MOST = 20

/** Exchanges one for one while that is worth more: a customer takes what another gives up, who takes the best that is then left. */
function improved(shared: SharedStock, packed: Packed): Packed {
  const { table } = shared
  const inside = (): number[] => [...packed.itemOf.keys()].filter((i) => (packed.itemOf[i] as number) >= 0)
  // Who is far from any offer is not tried: so many as there are offers, the most valuable first.
  const outside = (): number[] => {
    const out = [...packed.itemOf.keys()].filter((i) => (packed.itemOf[i] as number) < 0)
    const first = new Map(out.map((i) => [i, choicesOf(shared, i)[0]?.value ?? 0]))
    const value = (i: number): number => first.get(i) ?? 0
    const many = Math.max(
      20,
      table.places.reduce((sum, n) => sum + n, 0),
    )
    return out
      .filter((i) => value(i) > 0)
      .sort((a, b) => value(b) - value(a) || a - b)
      .slice(0, many)
  }
  const exchange = (i: number, m: number): boolean => {
    const before = packed.worth
    const [own, other] = [i, m].map((c) => ({ j: packed.itemOf[c] as number, w: packed.wayOf[c] as number }))
    if (own === undefined || other === undefined) return false
    if (own.j >= 0) put(shared, packed, i, own.j, own.w, -1)
    put(shared, packed, m, other.j, other.w, -1)
    for (const c of [i, m]) {
      const choice = freeChoice(shared, packed, c)
      if (choice !== undefined) put(shared, packed, c, choice.j, choice.w, 1)
    }
    if (packed.worth > before) return true
    for (const c of [i, m]) {
      const j = packed.itemOf[c] as number
      if (j >= 0) put(shared, packed, c, j, packed.wayOf[c] as number, -1)
    }
    if (own.j >= 0) put(shared, packed, i, own.j, own.w, 1)
    put(shared, packed, m, other.j, other.w, 1)
    return false
  }
  for (let sweep = 0, isBetter = true; isBetter && sweep < SWEEPS_MOST; sweep++) {
    isBetter = false
    const members = inside()
    // The exchange of all with all is dear where there are many.
    if (members.length > EXCHANGES_MOST) break
    for (const i of [...outside(), ...members])
      for (const m of members)
        if (i !== m && (packed.itemOf[m] as number) >= 0 && exchange(i, m)) isBetter = true
  }
  return packed
}

const EXCHANGES_MOST = 400
