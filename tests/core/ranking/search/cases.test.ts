import fc from 'fast-check'
import { expect, test } from 'vitest'
import { potential } from '../../../../src/core/gain/model/points.ts'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import { type Cells, cautiousOf, medianOf, reachedOf } from '../../../../src/core/ranking/search/cells.ts'
import { type Choice, leastOverSupersets, NO, type Space } from '../../../../src/core/ranking/search/space.ts'
import { frontierOf, type Step } from '../../../../src/core/ranking/search/sweep.ts'
import { drawCells, drawnSeeds, drawSpace, KIND } from './drawnSpace.ts'

const kept: readonly Choice[] = [{ priceMinor: 0, kinds: 0 }]
const openingMinor = 1500
const opened = (kinds: number) => (kinds === 0 ? 0 : openingMinor)
const least = leastOverSupersets(opened, 7)

/** Worked by hand: both sides of a frame take 10 ms, p = 7; opening is 15 whatever goes in. */
const sides: readonly (readonly [name: string, a: number, priceMinor: number, kinds: number])[] = [
  ['nothing', 10, 0, 0],
  ['kit', 9.2, 2500, KIND.memory],
  ['processor', 5, 10_000, KIND.processor],
  ['both', 4.6, 12_500, KIND.memory | KIND.processor],
]
const balanced: Space = {
  classes: 4,
  platforms: sides.map(([, , priceMinor, kinds], i) => ({ class: i, priceMinor, kinds, works: 0 })),
  cards: [
    { priceMinor: 0, kinds: 0 },
    { priceMinor: 10_000, kinds: KIND.card },
  ],
  ...{ cases: kept, coolers: kept, supplies: kept },
  ...{ cardFits: () => 0, caseFits: () => 0, coolerFits: () => 0, supplyFits: () => 0 },
  labour: opened,
  leastLabour: (kinds) => least[kinds] as number,
}
const timeOf = (q: number, g: number): number =>
  smax(Math.log(sides[q]?.[1] as number), Math.log(g === 0 ? 10 : 5), 7)
const plain: Cells = {
  titles: [{ weight: 1, capLog: Number.POSITIVE_INFINITY, targetLog: 0, today: timeOf(0, 0) }],
  mean: (_, q, g) => timeOf(q, g),
  ...{ gainSd: () => 0, endSd: () => 0 },
}
const percent = ({ value }: { value: number }) => 100 * Math.expm1(value)

test('parts hold each other back: alone +3.6 % and +10.3 %, two of them together +100 %', () => {
  const steps = frontierOf(balanced, medianOf(plain))
  const at = (netMinor: number) => percent(steps.find((s) => s.netMinor === netMinor) as Step)
  expect(steps.map(({ netMinor }) => netMinor)).toEqual([4000, 11_500, 14_000, 21_500, 24_000])
  expect(at(4000)).toBeCloseTo(3.633641, 5)
  expect(at(11_500)).toBeCloseTo(10.286274, 5)
  // Down the list for 215: the kit, then the card: 140 of it, and nothing else goes in.
  expect(at(14_000)).toBeCloseTo(19.771531, 5)
  expect(at(21_500)).toBeCloseTo(100, 5)
  expect(at(24_000)).toBeCloseTo(107.267283, 5)
  const perMoney = (step: Step) => percent(step) / step.netMinor
  expect([...steps].sort((a, b) => perMoney(b) - perMoney(a))[0]?.netMinor).toBe(21_500)
})

test('the lower end: two titles, the second a little above its cap', () => {
  const cells: Cells = {
    titles: [
      { weight: 0.5, capLog: Number.POSITIVE_INFINITY, targetLog: 0, today: 0 },
      { weight: 0.5, capLog: 0.1, targetLog: 0, today: 0 },
    ],
    mean: (t) => (t === 0 ? -0.3 : -0.15),
    gainSd: (t) => (t === 0 ? 0.1 : 0.2),
    endSd: () => 0,
  }
  // s = .05 and .5 (.1 + .09) / 1.2; L = .2 - 1.2 sqrt(.2 (sum s)^2 + .8 sum s^2), by hand.
  expect(medianOf(cells).at(1, 0, 0)).toBeCloseTo(0.2, 10)
  expect(cautiousOf(cells).at(1, 0, 0)).toBeCloseTo(0.0779139648, 9)
})

test("an end's own mean lies above the bounds that the search counts on", () => {
  const [a, b, logp] = [Math.log(8), Math.log(10), Math.log(7)]
  const free = { k: 0, y: 0, least: Number.NEGATIVE_INFINITY }
  const covariance = new Float64Array([0.01, 0, 0, 0, 0.04, 0, 0, 0, 0.09])
  const mean = potential('smax', [a, b, logp], covariance, free)
  // By the six points written out: mean +- sqrt(3) sd of each.
  expect(mean).toBeCloseTo(2.3604079593, 9)
  const sharpest = Math.exp(logp + Math.sqrt(3) * 0.3)
  expect(smax(a, b, sharpest)).toBeCloseTo(2.308519568, 8)
  expect(mean).toBeGreaterThan(smax(a, b, sharpest))
  expect(smax(a, b, sharpest)).toBeGreaterThan(Math.max(a, b))
})

/** The most that a price pays for. */
const worthAt = (steps: readonly Step[], netMinor: number): number =>
  steps.reduce((best, step) => (step.netMinor <= netMinor ? Math.max(best, step.value) : best), 0)
const isNowhereBelow = (upper: readonly Step[], lower: readonly Step[]): boolean =>
  [...upper, ...lower].every(({ netMinor }) => worthAt(upper, netMinor) >= worthAt(lower, netMinor) - 1e-12)

const OBJECTIVES = [medianOf, cautiousOf, reachedOf] as const

test('laws: one thing less, dearer, or worth less in exchange never raises a frontier; the order of a list changes nothing', () => {
  fc.assert(
    fc.property(drawnSeeds, fc.nat(), fc.nat({ max: 5000 }), (drawn, at, more) => {
      const space = drawSpace(drawn)
      const cells = drawCells(space, drawn.seed)
      const [list, which] = [space.supplies, at % space.supplies.length]
      const fewer: Space = {
        ...space,
        supplyFits: (p, g, c, s) => (s === which ? NO : space.supplyFits(p, g, c, s)),
      }
      const dearer: Space = {
        ...space,
        supplies: list.map((choice, s) =>
          s === which ? { ...choice, priceMinor: choice.priceMinor + more } : choice,
        ),
      }
      const turned: Space = {
        ...space,
        supplies: [...list].reverse(),
        supplyFits: (p, g, c, s) => space.supplyFits(p, g, c, list.length - 1 - s),
      }
      for (const of of OBJECTIVES) {
        const steps = frontierOf(space, of(cells))
        expect(isNowhereBelow(steps, frontierOf(fewer, of(cells)))).toBe(true)
        expect(isNowhereBelow(steps, frontierOf(dearer, of(cells)))).toBe(true)
        const figures = (all: readonly Step[]) => all.map(({ netMinor, value }) => [netMinor, value])
        expect(figures(frontierOf(turned, of(cells)))).toEqual(figures(steps))
      }
    }),
    { numRuns: 60 },
  )
}, 60_000)

test('nothing fits, an empty shelf, a list without entries: no step, and nothing thrown', () => {
  const none = { ...balanced, supplyFits: () => NO }
  expect(frontierOf(none, medianOf(plain))).toEqual([])
  expect(frontierOf({ ...balanced, cards: [], classes: 0, platforms: [] }, medianOf(plain))).toEqual([])
  expect(frontierOf({ ...balanced, supplies: [] }, medianOf(plain))).toEqual([])
})
