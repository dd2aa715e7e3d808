import type { Excerpt, KeptBasis } from '../gain/model/excerptTypes.ts'
import type { MatchShop } from '../matching/ask.ts'
import type { Minor } from '../money.ts'
import type { Scenario } from './ask.ts'

const inLog = (pct: number): number => Math.log1p(pct / 100)

/** The basis with both sides' log frame times moved: `v` and `v CARD` by `card`, `u` and `u PROCESSOR` by half of it. */
const heavierBasis = (basis: KeptBasis, card: number): KeptBasis => ({
  ...basis,
  mean: basis.mean.map((value, i) => {
    const name = basis.names[i] ?? ''
    if (name === 'v' || name.startsWith('v ')) return value + card
    return name === 'u' || name.startsWith('u ') ? value + card / 2 : value
  }),
})

/**
 * The gain model for titles that ask more, by so much in log of a card. What was measured is of today's titles, so it is left
 * out, also where nothing gets heavier yet: years then differ by what is asked alone.
 */
export const heavier = (excerpt: Excerpt, card: number): Excerpt => ({
  ...excerpt,
  views: excerpt.views.map((view) => ({
    ...view,
    cells: {},
    average: heavierBasis(view.average, card),
    ...(view.low && { low: heavierBasis(view.low, card) }),
  })),
})

/** The shop after so many years: used parts and trade-ins cheaper, titles heavier, work as it is. */
export function shopAfter(
  shop: MatchShop,
  { pricesFallPct, heavierPct }: Scenario,
  years: number,
): MatchShop {
  const left = (1 - pricesFallPct / 100) ** years
  const then = (minor: Minor): Minor => Math.round(minor * left)
  return {
    ...shop,
    shelf: shop.shelf.map((item) => ({ ...item, priceMinor: then(item.priceMinor) })),
    tradeIns: shop.tradeIns.map((credit) => ({ ...credit, creditMinor: then(credit.creditMinor) })),
    ...(shop.gain && { gain: heavier(shop.gain, years * inLog(heavierPct)) }),
  }
}
