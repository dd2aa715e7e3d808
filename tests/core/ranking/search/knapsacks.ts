import { smax } from '../../../../src/core/gain/model/smax.ts'
import type { Cells } from '../../../../src/core/ranking/search/cells.ts'
import type { Space } from '../../../../src/core/ranking/search/space.ts'

/**
 * Published 0-1 knapsack instances with their optima: John Burkardt, data set KNAPSACK_01 (P07 also Kreher & Stinson,
 * Combinatorial Algorithms, Table 5.2). Weights, profits, capacity, optimum.
 */
export type Knapsack = {
  readonly name: string
  readonly capacity: number
  readonly optimum: number
  readonly weights: readonly number[]
  readonly profits: readonly number[]
}

export const KNAPSACKS: readonly Knapsack[] = [
  {
    name: 'P01',
    capacity: 165,
    optimum: 309,
    weights: [23, 31, 29, 44, 53, 38, 63, 85, 89, 82],
    profits: [92, 57, 49, 68, 60, 43, 67, 84, 87, 72],
  },
  { name: 'P02', capacity: 26, optimum: 51, weights: [12, 7, 11, 8, 9], profits: [24, 13, 23, 15, 16] },
  {
    name: 'P03',
    capacity: 190,
    optimum: 150,
    weights: [56, 59, 80, 64, 75, 17],
    profits: [50, 50, 64, 46, 50, 5],
  },
  {
    name: 'P04',
    capacity: 50,
    optimum: 107,
    weights: [31, 10, 20, 19, 4, 3, 6],
    profits: [70, 20, 39, 37, 7, 5, 10],
  },
  {
    name: 'P05',
    capacity: 104,
    optimum: 900,
    weights: [25, 35, 45, 5, 25, 3, 2, 2],
    profits: [350, 400, 450, 20, 70, 8, 5, 5],
  },
  {
    name: 'P06',
    capacity: 170,
    optimum: 1735,
    weights: [41, 50, 49, 59, 55, 57, 60],
    profits: [442, 525, 511, 593, 546, 564, 617],
  },
  {
    name: 'P07',
    capacity: 750,
    optimum: 1458,
    weights: [70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120],
    profits: [135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240],
  },
  {
    name: 'P08',
    capacity: 6404180,
    optimum: 13549094,
    weights: [
      382745, 799601, 909247, 729069, 467902, 44328, 34610, 698150, 823460, 903959, 853665, 551830, 610856,
      670702, 488960, 951111, 323046, 446298, 931161, 31385, 496951, 264724, 224916, 169684,
    ],
    profits: [
      825594, 1677009, 1676628, 1523970, 943972, 97426, 69666, 1296457, 1679693, 1902996, 1844992, 1049289,
      1252836, 1319836, 953277, 2067538, 675367, 853655, 1826027, 65731, 901489, 577243, 466257, 369261,
    ],
  },
]

const NOTHING_MS = -60

/**
 * A knapsack as a machine and a shelf: the things in three groups, every subset of the first a processor, of the second a kit, of
 * the third a card; price = weight, gain = profit. Two titles, in one of which the card's time is next to nothing and in the
 * other the processor's, so that log gains add up exactly.
 */
export function asShop({ weights, profits }: Knapsack): { space: Space; cells: Cells; unit: number } {
  const third = Math.ceil(weights.length / 3)
  const subsets = (from: number, to: number) =>
    Array.from({ length: 1 << (to - from) }, (_, bits) => {
      let [weight, profit] = [0, 0]
      for (let i = from; i < to; i++)
        if (bits & (1 << (i - from))) {
          weight += weights[i] as number
          profit += profits[i] as number
        }
      return { weight, profit }
    })
  const processors = subsets(0, third)
  const kits = subsets(third, Math.min(2 * third, weights.length))
  const cards = subsets(Math.min(2 * third, weights.length), weights.length)
  const total = profits.reduce((sum, profit) => sum + profit, 0)
  // All profits together are a gain of 4 in log.
  const unit = 4 / total
  const ends = processors.flatMap((one) =>
    kits.map((other) => ({ weight: one.weight + other.weight, profit: one.profit + other.profit })),
  )
  const kept = [{ priceMinor: 0, kinds: 0 }]
  const title = { weight: 0.5, capLog: Number.POSITIVE_INFINITY, targetLog: 0, today: 0 }
  const a = Float64Array.from(ends, ({ profit }) => -2 * unit * profit)
  const b = Float64Array.from(cards, ({ profit }) => -2 * unit * profit)
  const [leastA, leastB] = [Math.min(...a), Math.min(...b)]
  const [aOf, bOf] = [(q: number) => a[q] as number, (g: number) => b[g] as number]
  return {
    unit,
    space: {
      classes: ends.length,
      platforms: ends.map(({ weight }, q) => ({
        class: q,
        priceMinor: weight,
        kinds: q === 0 ? 0 : 1,
        works: 0,
      })),
      cards: cards.map(({ weight }, g) => ({ priceMinor: weight, kinds: g === 0 ? 0 : 2 })),
      ...{ cases: kept, coolers: kept, supplies: kept },
      ...{ cardFits: () => 0, caseFits: () => 0, coolerFits: () => 0, supplyFits: () => 0 },
      ...{ labour: () => 0, leastLabour: () => 0 },
    },
    cells: {
      titles: [title, title],
      mean: (t, q, g) => (t === 0 ? smax(aOf(q), NOTHING_MS, 7) : smax(NOTHING_MS, bOf(g), 7)),
      ...{ gainSd: () => 0, endSd: () => 0 },
      pairFloor: (t, q, g) => (t === 0 ? aOf(q) : bOf(g)),
      classFloor: (t, q) => (t === 0 ? aOf(q) : leastB),
      cardFloor: (t, g) => (t === 0 ? leastA : bOf(g)),
    },
  }
}
