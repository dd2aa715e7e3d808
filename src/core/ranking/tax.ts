import type { Minor } from '../money.ts'
import type { ShopPolicy } from '../shop.ts'

/** How sales tax meets the shop's prices: settings of the shop, never a published rate. */
export type TaxPolicy = Pick<ShopPolicy, 'salesTaxBp' | 'taxIncluded' | 'taxOnWork' | 'tradeInsLowerTax'>

/** One hundredth of a percent is a basis point: 10,000 of them are the whole. */
const WHOLE_BP = 10_000

/**
 * Tax on an amount without it, in whole minor units: round(amount * bp / 10,000), half a unit away from zero. Each line
 * of a price is rounded by itself, so that a sum of lines is exact and a bundle is taxed as its parts are.
 * Whole numbers throughout: exact while amount * 10,000 stays below 2^53. Throws on a fraction, a programmer's error.
 */
export const taxOn = (amountMinor: Minor, bp: number): Minor => divided(amountMinor, bp, WHOLE_BP)

/** The tax that an amount holds already: round(amount * bp / (10,000 + bp)), half a unit away from zero. */
export const taxWithin = (amountMinor: Minor, bp: number): Minor => divided(amountMinor, bp, WHOLE_BP + bp)

function divided(amountMinor: Minor, times: number, by: number): Minor {
  const product = Math.abs(amountMinor) * times
  if (!Number.isSafeInteger(product) || !Number.isSafeInteger(amountMinor))
    throw new RangeError(`not whole minor units that can be taxed: ${amountMinor} at ${times}`)
  const rest = product % by
  const whole = (product - rest) / by + (rest * 2 >= by ? 1 : 0)
  // 0 - x and not -x: no tax must not become the number -0.
  return amountMinor < 0 ? 0 - whole : whole
}
