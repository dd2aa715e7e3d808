import { expect, test } from 'vitest'
import {
  CARD_PEAK,
  LARGE_SUPPLY_W,
  PEAK_CLASSES,
  peakPct,
  promisesPeaks,
  SUPPLY_PEAKS,
} from '../../../src/core/facts/supplyDesigns.ts'
import { SUPPLY_DESIGNS } from '../../../src/core/part.ts'

const [large, others] = PEAK_CLASSES

// Intel 336521 (ATX 3.0), Table 3-3: percent of the rated size, by duration and class.
test.each([
  [100, 200, 150],
  [1000, 180, 145],
  [10_000, 160, 135],
  [100_000, 120, 110],
])('for %i us: %i %% with the 16-pin plug above 450 W, else %i %%', (durationUs, withPlug, without) => {
  expect(peakPct(large, durationUs)).toBe(withPlug)
  expect(peakPct(others, durationUs)).toBe(without)
})

test('what the table does not name is the rating itself', () => {
  expect(peakPct(large, 50)).toBe(100)
})

// Intel 336521, Table 3-3: 200 % of 750 W for 100 us.
test('a 750 W supply of ATX 3.0 with the plug gives 1500 W for 100 us', () => {
  expect((750 * peakPct(large, CARD_PEAK.durationUs)) / 100).toBe(1500)
})

// Intel 613768 rev 2.01, Table 3-4: the test of a 1000 W supply, power at the peak and for the rest of the time. The
// root of the mean square stays at the rating: duty x peak^2 + (1 - duty) x rest^2 = 1000^2.
test.each([
  { durationUs: 100, peakW: 2000, restW: 918, dutyPct: 5 },
  { durationUs: 1000, peakW: 1800, restW: 897, dutyPct: 8 },
  { durationUs: 10_000, peakW: 1600, restW: 882, dutyPct: 12.5 },
  { durationUs: 100_000, peakW: 1200, restW: 924, dutyPct: 25 },
])('$peakW W for $dutyPct % of the time is 1000 W', ({ durationUs, peakW, restW, dutyPct }) => {
  const row = SUPPLY_PEAKS.find((p) => p.peakClass === large && p.durationUs === durationUs)
  expect(row).toMatchObject({ testDutyPct: dutyPct, ofRatedPct: peakW / 10 })
  const duty = (row?.testDutyPct ?? Number.NaN) / 100
  const ofTableW = 10 * (row?.ofRatedPct ?? Number.NaN)
  expect(Math.abs(Math.hypot(Math.sqrt(duty) * ofTableW, Math.sqrt(1 - duty) * restW) - 1000)).toBeLessThan(3)
})

// Same table: rest of the time 1.9, 11.5, 70 and 300 ms; duty = peak / (peak + rest).
test.each([
  [100, 1900],
  [1000, 11_500],
  [10_000, 70_000],
  [100_000, 300_000],
])('%i us at the peak and %i us of rest make the duty of the table', (durationUs, restUs) => {
  for (const { testDutyPct } of SUPPLY_PEAKS.filter((p) => p.durationUs === durationUs))
    expect(testDutyPct).toBeCloseTo((100 * durationUs) / (durationUs + restUs), 6)
})

test('the longer, the less; and the plug class is never below the other', () => {
  for (const peakClass of PEAK_CLASSES) {
    const percents = SUPPLY_PEAKS.filter((p) => p.peakClass === peakClass).map((p) => p.ofRatedPct)
    expect(percents).toHaveLength(4)
    expect([...percents].sort((a, b) => b - a)).toEqual(percents)
  }
  for (const { durationUs } of SUPPLY_PEAKS)
    expect(peakPct(large, durationUs)).toBeGreaterThan(peakPct(others, durationUs))
})

// Units of older guides carry no such promise (from memory; the 2.x guides have no excursion table).
test('only issue 3 promises peaks, and not knowing promises none', () => {
  expect(SUPPLY_DESIGNS.filter(promisesPeaks)).toEqual(['ATX 3.0', 'ATX 3.1'])
  expect(promisesPeaks(undefined)).toBe(false)
})

// Intel 336521 rev 2.1a: Table 4-3 (100 % to 300 %); 12V-2x6 required above 450 W.
test('figures of card and large supply', () => {
  expect([CARD_PEAK.factor, CARD_PEAK.durationUs]).toEqual([3, 100])
  expect(LARGE_SUPPLY_W).toBe(450)
})
