import { type Assigned, scaleOf, type Table, weightOf } from './table.ts'

/** Sums of two such weights are still exact in a double. */
const LARGEST = 2 ** 52

/** Called with how many of all customers came in; may throw to stop. */
export type OnProgress = (done: number, of: number) => void

/**
 * The best matching: every customer at most one item, every item at most its places, the sum of values as large as it can
 * be and, among those, the longest waiters. Exact: whole numbers below 2^53, no tolerance. Throws a RangeError where they
 * would be larger.
 *
 * Customers come in one by one, the largest value first and of equals the lower number. Each item has a price, 0 while it
 * has a place left; nobody who is in would rather have another item, nobody who is out would pay a price. Whoever comes
 * in takes the shortest path of moves (Dijkstra over items, not customers) to a free place, to somebody who drops out,
 * or stays out; prices of the items on the way rise so that all this holds again. Shortest augmenting paths with prices:
 * Ahuja, Magnanti & Orlin, Network Flows (1993), sections 9.7 and 12.4 (from memory).
 * Time: customers x items for looking, and for each who comes in about items^2.
 */
export function assign(table: Table, onProgress: OnProgress = () => {}): Assigned {
  const { customers, items, values, places } = table
  const waited = table.waited ?? new Int32Array(customers)
  const scale = scaleOf(table)
  const weight = (i: number, j: number): number =>
    weightOf(values[i * items + j] as number, waited[i] as number, scale)
  const best = new Float64Array(customers)
  for (let i = 0; i < customers; i++)
    for (let j = 0; j < items; j++)
      if ((places[j] as number) > 0) best[i] = Math.max(best[i] as number, weight(i, j))
  if (best.some((w) => w >= LARGEST)) throw new RangeError('values are too large to be added exactly')
  const order = Array.from(best.keys())
    .filter((i) => (best[i] as number) > 0)
    .sort((a, b) => (best[b] as number) - (best[a] as number) || a - b)

  const prices = new Float64Array(items)
  const itemOf = new Int32Array(customers).fill(-1)
  const members: number[][] = Array.from({ length: items }, () => [])
  // The least that a member of j loses by moving to k, before prices; worked out again after somebody left.
  const loss = new Float64Array(items * items)
  const mover = new Int32Array(items * items)
  const isFresh = new Uint8Array(items)
  const refresh = (j: number): void => {
    const at = j * items
    loss.fill(Number.POSITIVE_INFINITY, at, at + items)
    for (const m of members[j] as number[]) offerMoves(j, m)
    isFresh[j] = 1
  }
  const offerMoves = (j: number, m: number): void => {
    const [at, row] = [j * items, m * items]
    const own = weight(m, j)
    for (let k = 0; k < items; k++) {
      if (values[row + k] === 0 || k === j) continue
      const lost = own - weight(m, k)
      if (lost < (loss[at + k] as number)) {
        loss[at + k] = lost
        mover[at + k] = m
      }
    }
  }
  const enter = (i: number, j: number): void => {
    itemOf[i] = j
    ;(members[j] as number[]).push(i)
    if (isFresh[j] === 1) offerMoves(j, i)
  }
  const leave = (i: number, j: number): void => {
    const list = members[j] as number[]
    list.splice(list.indexOf(i), 1)
    isFresh[j] = 0
  }

  const dist = new Float64Array(items)
  const from = new Int32Array(items)
  const isDone = new Uint8Array(items)
  let done = 0
  for (const i of order) {
    if (done++ % 256 === 0) onProgress(done - 1, order.length)
    const row = i * items
    let most = 0
    for (let j = 0; j < items; j++) {
      if (values[row + j] === 0 || places[j] === 0) continue
      most = Math.max(most, weight(i, j) - (prices[j] as number))
    }
    if (most <= 0) continue
    for (let j = 0; j < items; j++) {
      const isOpen = values[row + j] !== 0 && (places[j] as number) > 0
      dist[j] = isOpen ? most - (weight(i, j) - (prices[j] as number)) : Number.POSITIVE_INFINITY
      from[j] = -1
      isDone[j] = 0
    }
    // Staying out is an end too, and on a tie the one that is taken: nobody is moved for nothing.
    let end = most
    let endItem = -1
    let dropped = -1
    const visited: number[] = []
    for (;;) {
      let j = -1
      let near = end
      for (let k = 0; k < items; k++)
        if (isDone[k] === 0 && (dist[k] as number) < near) {
          near = dist[k] as number
          j = k
        }
      if (j < 0) break
      isDone[j] = 1
      visited.push(j)
      const inside = members[j] as number[]
      if (inside.length < (places[j] as number)) {
        end = near
        endItem = j
        dropped = -1
        break
      }
      const price = prices[j] as number
      for (const m of inside) {
        const length = near + weight(m, j) - price
        if (length < end) {
          end = length
          endItem = j
          dropped = m
        }
      }
      if (isFresh[j] === 0) refresh(j)
      const at = j * items
      for (let k = 0; k < items; k++) {
        if (isDone[k] === 1 || places[k] === 0) continue
        const length = near + (loss[at + k] as number) - price + (prices[k] as number)
        if (length < (dist[k] as number)) {
          dist[k] = length
          from[k] = j
        }
      }
    }
    for (const j of visited) {
      const rise = end - (dist[j] as number)
      if (rise > 0) prices[j] = (prices[j] as number) + rise
    }
    if (endItem < 0) continue
    if (dropped >= 0) {
      leave(dropped, endItem)
      itemOf[dropped] = -1
    }
    let j = endItem
    while (from[j] !== -1) {
      const before = from[j] as number
      const m = mover[before * items + j] as number
      leave(m, before)
      enter(m, j)
      j = before
    }
    enter(i, j)
  }
  // What has no place costs as much as anybody would gain by it.
  for (let j = 0; j < items; j++)
    for (let i = 0; places[j] === 0 && i < customers; i++)
      prices[j] = Math.max(prices[j] as number, weight(i, j))
  onProgress(order.length, order.length)
  return { itemOf, prices, scale }
}
