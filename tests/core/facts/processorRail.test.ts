import { expect, test } from 'vitest'
import { PROCESSOR_RAILS, peakPowerW, RAIL_V } from '../../../src/core/facts/processorRail.ts'

// Intel 336521 (ATX 3.0), Table 2-1: currents of the processor's rail by heat class; watts at 11.2 V (section 3.2).
test.each([
  { classW: 165, continuousA: 37.5, peakA: 40, continuousW: 420, peakW: 448 },
  { classW: 125, continuousA: 26, peakA: 39, continuousW: 291.2, peakW: 436.8 },
  { classW: 65, continuousA: 23, peakA: 34, continuousW: 257.6, peakW: 380.8 },
  { classW: 35, continuousA: 11, peakA: 19, continuousW: 123.2, peakW: 212.8 },
])('a $classW W class takes $continuousW W and peaks at $peakW W', (row) => {
  expect(PROCESSOR_RAILS.find(({ classW }) => classW === row.classW)).toMatchObject(row)
  expect(row.continuousA * RAIL_V).toBeCloseTo(row.continuousW, 6)
  expect(row.peakA * RAIL_V).toBeCloseTo(row.peakW, 6)
})

// The smallest class whose continuous power is no less; the edges are those of the table.
test.each([
  [15, 212.8],
  [123.2, 212.8],
  [123.3, 380.8],
  [257.6, 380.8],
  [257.7, 436.8],
  [291.2, 436.8],
  [291.3, 448],
  [420, 448],
  [420.1, undefined],
])('a limit of %d W peaks at %d W', (limitW, peakW) => {
  expect(peakPowerW(limitW)).toBe(peakW)
})

test('a peak is above the sustained power, and both grow with the class', () => {
  PROCESSOR_RAILS.forEach((row, i) => {
    expect(row.peakW).toBeGreaterThan(row.continuousW)
    const smaller = PROCESSOR_RAILS[i - 1]
    if (smaller === undefined) return
    expect(row.continuousW).toBeGreaterThan(smaller.continuousW)
    expect(row.peakW).toBeGreaterThan(smaller.peakW)
  })
})
