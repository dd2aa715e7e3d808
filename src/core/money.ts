/**
 * Money is a whole number of minor units (cents, yen) of one currency. The shop has one currency, so amounts carry
 * none; the currency is a shop setting and meets the amount only where it is printed (words/figures).
 */
export type Minor = number

/** Sum of amounts in minor units. Throws on a fraction: that is a programmer's error, never a person's. */
export function sumMinor(amounts: readonly Minor[]): Minor {
  let total = 0
  for (const amount of amounts) {
    if (!Number.isSafeInteger(amount)) throw new RangeError(`not a whole number of minor units: ${amount}`)
    total += amount
  }
  return total
}
