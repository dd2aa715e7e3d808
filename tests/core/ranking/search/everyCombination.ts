import { bitCount } from '../../../../src/core/bits.ts'
import { NO, type Space } from '../../../../src/core/ranking/search/space.ts'

/** A combination that fits, with its price. */
export type Whole = {
  readonly gainClass: number
  readonly card: number
  readonly netMinor: number
  readonly kinds: number
}

/**
 * Every combination that fits, one by one, with nothing clever. Of each pair of class and card only the cheapest is kept, of
 * equal ones that with fewer new kinds.
 */
export function everyCombination(space: Space): Whole[] {
  const all = new Map<number, Whole>()
  const { platforms, cards, cases, coolers, supplies } = space
  for (const [p, platform] of platforms.entries())
    for (const [g, card] of cards.entries()) {
      const ofCard = space.cardFits(p, g)
      for (const [c, box] of cases.entries()) {
        const ofCase = space.caseFits(p, g, c)
        for (const [k, cooler] of coolers.entries()) {
          const ofCooler = space.coolerFits(p, g, c, k)
          for (const [s, supply] of supplies.entries()) {
            const ofSupply = space.supplyFits(p, g, c, s)
            if (ofCard === NO || ofCase === NO || ofCooler === NO || ofSupply === NO) continue
            const kinds = platform.kinds | card.kinds | box.kinds | cooler.kinds | supply.kinds
            const works = platform.works | ofCard | ofCase | ofCooler | ofSupply
            const parts =
              platform.priceMinor + card.priceMinor + box.priceMinor + cooler.priceMinor + supply.priceMinor
            const netMinor = parts + space.labour(kinds, works)
            const pair = platform.class * cards.length + g
            const had = all.get(pair)
            const isBetter =
              had === undefined ||
              netMinor < had.netMinor ||
              (netMinor === had.netMinor && bitCount(kinds) < bitCount(had.kinds))
            if (isBetter) all.set(pair, { gainClass: platform.class, card: g, kinds, netMinor })
          }
        }
      }
    }
  return [...all.values()]
}

export type PlainStep = { readonly netMinor: number; readonly value: number }

/** The frontier above `start` by sorting everything. */
export function plainFrontier(
  combinations: readonly Whole[],
  value: (gainClass: number, card: number) => number,
  start: number,
): PlainStep[] {
  const sorted = combinations
    .map((whole) => ({ netMinor: whole.netMinor, value: value(whole.gainClass, whole.card) }))
    .sort((a, b) => a.netMinor - b.netMinor || b.value - a.value)
  const steps: PlainStep[] = []
  let best = start
  for (const one of sorted)
    if (one.value > best + 1e-12) {
      steps.push(one)
      best = one.value
    }
  return steps
}

export const ofPair = (combinations: readonly Whole[], gainClass: number, card: number): Whole | undefined =>
  combinations.find((whole) => whole.gainClass === gainClass && whole.card === card)
