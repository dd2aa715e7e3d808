import { minorPerMajor } from '../currency.ts'
import type { Minor } from '../money.ts'

/**
 * The amount that a gain is told for: a hundred of the currency, and ten times as much as often as it stays within
 * twice the middle price. A percentage for 100 yen or dong, which buy nothing here, would be no figure at all.
 */
export function referenceMinor(prices: readonly Minor[], currency: string): Minor {
  const sorted = prices.filter((price) => price > 0).sort((a, b) => a - b)
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0
  let amount = 100 * minorPerMajor(currency)
  while (amount * 10 <= 2 * middle) amount *= 10
  return amount
}
