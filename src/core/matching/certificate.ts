import type { Assigned, Table } from './table.ts'

/** What a check of a matching found. Where `holds`, no other matching is worth more. */
export type Certificate = {
  readonly holds: boolean
  /** What is wrong, where anything is. */
  readonly faults: readonly Fault[]
  /** What the matching is worth, and the most that any could be by these prices; whole numbers as text. Equal where it holds. */
  readonly worth: string
  readonly bound: string
  /** How many pairs of customer and item were looked at. */
  readonly pairs: number
}

export const FAULTS = [
  'more offers than places',
  'an offer without a value',
  'a price below nothing',
  'a price on what is left over',
  'a pair worth more than its prices',
  'worth and bound differ',
] as const
export type Fault = (typeof FAULTS)[number]

/**
 * Whether a matching is the best there is, from the matching and the prices alone; it knows nothing of how they were found.
 *
 * For any prices of 0 or more, no matching is worth more than `sum places x price + sum over customers of the most that
 * any item is worth to them above its price` (weak duality of linear programming). So a matching that is worth exactly this is best.
 * All pairs are looked at, in whole numbers, sums without any bound on their size.
 */
export function checkCertificate(table: Table, { itemOf, prices, scale }: Assigned): Certificate {
  const { customers, items, values, places } = table
  const pairs = customers * items
  const isPrice = (price: number): boolean => Number.isSafeInteger(price) && price >= 0
  if (prices.length !== items || !prices.every(isPrice))
    return { holds: false, faults: ['a price below nothing'], worth: '0', bound: '0', pairs }
  const faults = new Set<Fault>()
  const offered = new Int32Array(items)
  let [worth, bound] = [0n, 0n]
  for (let i = 0; i < customers; i++) {
    const wait = table.waited?.[i] ?? 0
    let most = 0
    for (let j = 0; j < items; j++) {
      const value = values[i * items + j] as number
      if (value <= 0) continue
      const above = value * scale + wait - (prices[j] as number)
      if (above > most) most = above
    }
    bound += BigInt(most)
    const own = itemOf[i] as number
    if (own < 0) continue
    const value = own < items ? (values[i * items + own] as number) : 0
    if (value <= 0) {
      faults.add('an offer without a value')
      continue
    }
    offered[own] = (offered[own] as number) + 1
    worth += BigInt(value) * BigInt(scale) + BigInt(wait)
    // What this customer has above its price must be the most that is to be had.
    if (value * scale + wait - (prices[own] as number) < most) faults.add('a pair worth more than its prices')
  }
  for (let j = 0; j < items; j++) {
    const price = prices[j] as number
    bound += BigInt(places[j] as number) * BigInt(price)
    if ((offered[j] as number) > (places[j] as number)) faults.add('more offers than places')
    if (price > 0 && (offered[j] as number) < (places[j] as number))
      faults.add('a price on what is left over')
  }
  if (worth !== bound) faults.add('worth and bound differ')
  return {
    holds: faults.size === 0,
    faults: FAULTS.filter((fault) => faults.has(fault)),
    worth: String(worth),
    bound: String(bound),
    pairs,
  }
}
