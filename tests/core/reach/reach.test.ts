import { describe, expect, test } from 'vitest'
import { type Curve, levelAt, needFor } from '../../../src/core/reach/curve.ts'
import { meanRise } from '../../../src/core/reach/ends.ts'
import { planReach, savingRows } from '../../../src/core/reach/reach.ts'
import { shopAfter } from '../../../src/core/reach/scenario.ts'
import { turnOf } from '../../../src/core/reach/turn.ts'
import { TWO as inputs } from './twoPlatforms.ts'

const points = (...steps: readonly (readonly [spendMinor: number, fps: number])[]): Curve => ({
  points: steps.map(([spendMinor, fps]) => ({
    ...{ spendMinor, fps, low: fps, high: fps, isBound: false, addIds: [], shelfItemIds: [], titles: [] },
  })),
  untoldTitleIds: [],
})

describe('two platforms and three upgrades, by hand', () => {
  const reach = planReach(inputs)
  const curve = (at: number) =>
    reach.platforms[at]?.now.points.map(({ spendMinor, fps }) => [spendMinor, Math.round(fps)])

  test('levels against further spend', () => {
    expect(curve(0)).toEqual([
      [0, 50],
      [11_500, 70],
      [21_500, 80],
      [31_500, 85],
    ])
    expect(curve(1)).toEqual([
      [0, 55],
      [11_500, 75],
      [21_500, 100],
      [31_500, 130],
    ])
    expect(reach.platforms.map(({ firstMinor }) => firstMinor)).toEqual([40_000, 50_000])
    // 60 is missed from the start, and the first card reaches it.
    expect(reach.platforms.map(({ firstUpgrade }) => firstUpgrade)).toMatchObject([
      { year: 0, spendMinor: 11_500 },
      { year: 0, spendMinor: 11_500 },
    ])
    for (const { end } of reach.platforms) expect(end).toEqual({ ends: 'money' })
  })

  test('what 100.00 more today saves later, and where it turns', () => {
    const [a, b] = reach.platforms.map(({ now }) => now) as [Curve, Curve]
    const rows = savingRows([b], [a], 10_000, [70, 75, 80, 90, 140], 0)
    expect(
      rows.map(({ fps, dearerMinor, cheaperMinor, better }) => [fps, dearerMinor, cheaperMinor, better]),
    ).toEqual([
      [70, 11_500, 11_500, 'cheaper'],
      // 500 + 115 = 615 and 400 + 215 = 615: level, so the one that costs less today.
      [75, 11_500, 21_500, 'cheaper'],
      [80, 21_500, 21_500, 'cheaper'],
      [90, 21_500, undefined, 'dearer'],
      [140, undefined, undefined, undefined],
    ])
    // 100 FPS only B reaches; at 85 both come to 715.00. (At 55 B is the cheaper one, and at 70 it is not: that is no turn.)
    expect(turnOf(b, a, 10_000)).toEqual({ fps: b.points[2]?.fps, dearerMinor: 21_500 })
    // One cent less: at 85 B comes to 714.99.
    expect(turnOf(b, a, 9_999)).toEqual({
      ...{ fps: a.points[3]?.fps, dearerMinor: 21_500, cheaperMinor: 31_500 },
    })
    // What costs more and does less at the top never pays.
    expect(turnOf(a, b, 0)).toBeUndefined()
    // One cent less on the dearer board, and it turns.
    expect(savingRows([b], [a], 9_999, [75], 0)[0]?.better).toBe('dearer')
  })
})

// By hand. Today both run at 60. In two years the dearer board takes a processor for 120.00; the cheaper one needs a
// new board with it, 260.00. The dearer one cost 80.00 more: 200 against 260. Where it cost 150.00 more: 270 against 260.
test('the dearer board is the cheaper machine after two years, and is not where it cost too much', () => {
  const dear = [points([0, 62]), points([0, 56], [12_000, 75]), points([0, 50], [12_000, 70])]
  const cheap = [points([0, 61]), points([0, 55], [26_000, 75]), points([0, 49], [26_000, 70])]
  const better = (moreMinor: number) =>
    savingRows(dear, cheap, moreMinor, [60], 2).map((row) => [row.year, row.better])
  expect(better(8_000)).toEqual([
    [0, 'cheaper'],
    [2, 'dearer'],
  ])
  expect(better(15_000)).toEqual([
    [0, 'cheaper'],
    [2, 'cheaper'],
  ])
})

test('prices fall year by year, work does not', () => {
  const then = shopAfter(inputs.shop, { pricesFallPct: 10, heavierPct: 0, years: 2 }, 2)
  // 0.9 squared.
  expect(then.shelf.map(({ priceMinor }) => priceMinor)).toEqual([8100, 16_200, 24_300])
  expect(then.work).toEqual(inputs.shop.work)
  const falling = {
    ...inputs,
    ask: { ...inputs.ask, scenario: { pricesFallPct: 10, heavierPct: 0, years: 2 } },
  }
  expect(planReach(falling).platforms[0]?.later.points[1]?.spendMinor).toBe(9_600)
})

test('steps are steps: needs, levels and the mean rise between two', () => {
  const low = points([0, 50], [100, 100])
  const high = points([0, 50], [50, 100], [300, 200])
  expect([49, 50, 51, 100, 101].map((fps) => needFor(low, fps))).toEqual([0, 0, 100, 100, undefined])
  expect([0, 99, 100, 1000].map((minor) => levelAt(low, minor))).toEqual([50, 50, 100, 100])
  // From 50 to 100 twice as fast, from 300 to 400 again: (50 + 100) / 400 of ln 2.
  expect(meanRise(low, high, 400)).toBeCloseTo((150 / 400) * Math.LN2, 12)
  expect(meanRise(low, low, 400)).toBe(0)
})
