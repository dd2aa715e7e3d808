import { expect, test } from 'vitest'
import { endOf } from '../../../src/core/gain/endOf.ts'
import { freeze } from '../freeze.ts'
import { fitted, run } from './runs.ts'

const F = fitted('CPU-A', 'CARD-A')
const runsOf = (rates: readonly number[], over: { machineTag?: string; low1Fps?: number } = {}) =>
  freeze(rates.map((averageFps) => run({ fitted: F, averageFps, ...over })))

/*
 * Repeats of one cell. By hand; the noise is 0.02 a run and 0.015 a machine (general knowledge, from memory).
 * ln(100/86.1) = 0.14966 agrees, ln(100/86) = 0.15082 does not: the edge is 0.15.
 */
const CASES = [
  ['one run is itself, to the last digit', [60], 60, 1, false],
  ['two that agree: their geometric mean, sqrt(90 * 100)', [90, 100], 94.8683298051, 2, false],
  ['two just inside 0.15: sqrt(86.1 * 100)', [86.1, 100], 92.7900856773, 2, false],
  ['two just outside 0.15: the lower frame time alone', [86, 100], 100, 1, true],
  ['ten times off, a digit too many: still the lower frame time, and marked', [60, 600], 600, 1, true],
  ['three: the median, one spoilt run moves nothing', [100, 40, 98], 98, 3, false],
  ['four: the geometric mean of the middle two, sqrt(96 * 98)', [98, 40, 100, 96], 96.9948452239, 4, false],
] as const

test.each(CASES)('%s', (_, rates, averageFps, counting, disagrees) => {
  const other = endOf(runsOf(rates), 'M-0001')
  expect(other.end.averageFps).toBeCloseTo(averageFps, 9)
  expect(other.disagrees).toBe(disagrees)
  expect(other.variance).toBeCloseTo(0.02 ** 2 / counting + 0.015 ** 2, 12)
  expect(other.end.onThisMachine).toBe(false)
  expect(other.end.runIds).toHaveLength(rates.length)

  const own = endOf(runsOf(rates, { machineTag: 'M-0001' }), 'M-0001')
  expect(own.variance).toBeCloseTo(0.02 ** 2 / counting, 12)
  expect(own.end.onThisMachine).toBe(true)
})

test('a figure that one run gave is not touched by a logarithm and back', () => {
  expect(endOf(runsOf([60]), 'M').end.averageFps).toBe(60)
  expect(endOf(runsOf([143.7, 143.7]), 'M').end.averageFps).toBe(143.7)
})

test('the 1 % low is put together like the average and never lies above it', () => {
  expect(endOf(runsOf([100, 100, 100], { low1Fps: 80 }), 'M').end.low1Fps).toBe(80)
  expect(endOf(runsOf([60], { low1Fps: 75 }), 'M').end.low1Fps).toBe(60)
  expect(endOf(runsOf([60]), 'M').end.low1Fps).toBeUndefined()
})

test('of two that disagree the 1 % low is that of the run that counts', () => {
  const runs = [
    run({ fitted: F, averageFps: 100, low1Fps: 80 }),
    run({ fitted: F, averageFps: 50, low1Fps: 30 }),
  ]
  expect(endOf(runs, 'M').end.low1Fps).toBe(80)
})

test('an end on several machines counts as this machine only when every run was made on it', () => {
  const runs = [
    run({ fitted: F, averageFps: 100, machineTag: 'M-1' }),
    run({ fitted: F, averageFps: 100, machineTag: 'M-2' }),
  ]
  expect(endOf(runs, 'M-1').end.onThisMachine).toBe(false)
})

test('an end tells the latest of its runs', () => {
  const runs = [
    run({ fitted: F, averageFps: 100, at: '2026-01-01T00:00:00Z' }),
    run({ fitted: F, averageFps: 100, at: '2026-02-01T00:00:00Z' }),
  ]
  expect(endOf(runs, 'M').end.at).toBe('2026-02-01T00:00:00Z')
})

test('no run is no end', () => {
  expect(() => endOf([], 'M')).toThrow(RangeError)
})
