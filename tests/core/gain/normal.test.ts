import { normal } from 'jstat'
import { expect, test } from 'vitest'
import { logNormalCdf, normalCdf, normalHazard } from '../../../src/core/gain/normal.ts'

/* Reference: jstat 1.9.6; five quantiles computed with SciPy 1.17.1; tails from Abramowitz & Stegun, table 26.2. */

test.each([
  [0.9, 1.281551566],
  [0.95, 1.644853627],
  [0.975, 1.959963985],
  [0.99, 2.326347874],
  [0.995, 2.575829304],
])('%f lies below the quantile that SciPy gives', (p, z) => {
  expect(normalCdf(z)).toBeCloseTo(p, 9)
  expect(normalCdf(-z)).toBeCloseTo(1 - p, 9)
})

test('the distribution agrees with jstat, and undoes its quantiles', () => {
  for (let z = -5; z <= 5; z += 0.01) expect(normalCdf(z)).toBeCloseTo(normal.cdf(z, 0, 1), 9)
  for (let p = 0.001; p < 1; p += 0.001) expect(normalCdf(normal.inv(p, 0, 1))).toBeCloseTo(p, 9)
})

// Abramowitz & Stegun, Handbook of Mathematical Functions, table 26.2: -log10 Q(x), from memory; checked with the
// asymptotic series 26.2.12 to the digits given.
test.each([
  [5, 6.54265],
  [10, 23.11805],
  [20, 88.5601],
])('the tail beyond %f keeps its digits', (x, minusLog10) => {
  expect(-Math.log10(normalCdf(-x))).toBeCloseTo(minusLog10, 4)
  expect(-logNormalCdf(-x) / Math.LN10).toBeCloseTo(minusLog10, 4)
})

test('the hazard is the slope of the log, also across the seam of the two ways', () => {
  for (const x of [-30, -8, -3.0001, -3, -2.9999, -1, 0, 1, 3, 5]) {
    const h = 1e-5
    const numeric = (logNormalCdf(x + h) - logNormalCdf(x - h)) / (2 * h)
    expect(normalHazard(x) / numeric - 1).toBeCloseTo(0, 4)
  }
  expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0)
  expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1)
  expect(normalCdf(Number.NaN)).toBeNaN()
})
