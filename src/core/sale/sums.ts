import { type Minor, sumMinor } from '../money.ts'
import type { PartKind } from '../part.ts'
import { type TaxPolicy, taxWithin } from '../ranking/tax.ts'
import { fittingWork, type WorkPrice } from '../shop.ts'

/** Amounts of a sale; what is absent is not known, never 0. */
export type SaleAmounts = {
  /** What each part cost the shop. */
  readonly costs: readonly (Minor | undefined)[]
  /** What else the machine cost; absent: nothing else was written down, which adds nothing. */
  readonly otherCostMinor?: Minor | undefined
  /** What the buyer pays. */
  readonly priceMinor?: Minor | undefined
}

/** What a sale cost and brought, in whole minor units. */
export type SaleSums = {
  /** Everything whose cost is known. */
  readonly costMinor: Minor
  /** Parts whose cost nobody wrote down. */
  readonly unknownCosts: number
  readonly priceMinor?: Minor | undefined
  /** Sales tax that the price holds; only where the shop's prices hold it. */
  readonly taxMinor?: Minor | undefined
  /** Price less tax less cost; with unknown costs it is at most that. Absent: the price is not known. */
  readonly marginMinor?: Minor | undefined
  /** The margin as hundredths of a percent of the price without tax, rounded down; absent where that price is 0. */
  readonly marginBp?: number | undefined
}

/**
 * What putting the machine together comes to by the shop's work table, in minor units: fitting each part once. It is what the
 * shop takes for that work, so it is proposed as a cost and never counted by itself. Absent: a part of a kind that has no price,
 * or no part at all.
 */
export function fittingOf(kinds: readonly PartKind[], work: readonly WorkPrice[]): Minor | undefined {
  const priceOf = new Map(work.map((price) => [price.work, price.priceMinor]))
  const prices = kinds.map((kind) => priceOf.get(fittingWork(kind))).filter((price) => price !== undefined)
  return kinds.length === 0 || prices.length < kinds.length ? undefined : sumMinor(prices)
}

const WHOLE_BP = 10_000

/**
 * Sums up a sale. Tax that is added to the shop's prices is the buyer's alone and stands in neither; tax that they hold
 * is taken off the price first.
 */
export function saleSums(
  { costs, otherCostMinor = 0, priceMinor }: SaleAmounts,
  { salesTaxBp = 0, taxIncluded = false }: TaxPolicy,
): SaleSums {
  const known = costs.filter((cost) => cost !== undefined)
  const costMinor = sumMinor([...known, otherCostMinor])
  const unknownCosts = costs.length - known.length
  if (priceMinor === undefined) return { costMinor, unknownCosts }
  const taxMinor = taxIncluded && salesTaxBp > 0 ? taxWithin(priceMinor, salesTaxBp) : undefined
  const earnedMinor = priceMinor - (taxMinor ?? 0)
  const marginMinor = earnedMinor - costMinor
  return {
    ...{ costMinor, unknownCosts, priceMinor, marginMinor },
    ...(taxMinor !== undefined && { taxMinor }),
    ...(earnedMinor > 0 && { marginBp: Math.floor((marginMinor * WHOLE_BP) / earnedMinor) }),
  }
}
