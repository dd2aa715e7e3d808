import { expect, test } from 'vitest'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import { modelOf } from '../../../../src/core/gain/model/index.ts'
import { drawShop } from './drawn.ts'
import { ask, PLAIN } from './small.ts'

/*
 * Simulation-based calibration (Cook, Gelman & Rubin, J. Comput. Graph. Stat. 15(3), 2006): where shops are drawn from the
 * model itself, intervals with normal factors must hold what they say. Normal quantiles: SciPy 1.17.1.
 */
const FACTORS = { 50: 0.6744897502, 80: 1.2815515655, 90: 1.644853627 } as const

test.each([
  ['150 runs', { processors: 8, cards: 10, titles: 9, runs: 150 }, 13],
  ['600 runs', { processors: 12, cards: 14, titles: 9, runs: 600 }, 120],
])('intervals of 12 drawn shops of %s hold what they say', (_, size, step) => {
  const held = { 50: 0, 80: 0, 90: 0 }
  let count = 0
  for (let seed = 1; seed <= 12; seed++) {
    const shop = drawShop(seed, size, PLAIN)
    const { difference } = modelOf(fitWith(shop.data, PLAIN))
    const machines = shop.data.runs.filter((_, i) => i % step === seed % step)
    for (const { fitted: before, titleId, settingId } of machines)
      for (const g of shop.cards)
        for (const c of shop.processors) {
          const after = shop.fitted(c, g)
          const gain = difference?.(ask(titleId, before, after, settingId))
          if (gain === undefined || gain.sd === 0) continue
          const truth = shop.logTime(titleId, settingId, before) - shop.logTime(titleId, settingId, after)
          const off = Math.abs(gain.logGain - truth) / gain.sd
          count++
          for (const level of [50, 80, 90] as const) if (off <= FACTORS[level]) held[level]++
        }
  }
  const percent = (level: 50 | 80 | 90) => (100 * held[level]) / count
  expect(percent(80)).toBeGreaterThan(77)
  expect(percent(80)).toBeLessThan(84)
  expect(percent(50)).toBeGreaterThan(46)
  expect(percent(50)).toBeLessThan(56)
  expect(percent(90)).toBeGreaterThan(87)
  expect(percent(90)).toBeLessThan(93)
})
