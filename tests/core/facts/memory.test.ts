import { expect, test } from 'vitest'
import { MEMORY_RATES, moduleGBps } from '../../../src/core/facts/memory.ts'

// JEDEC JESD79-3 (DDR3), JESD79-4 (DDR4), JESD79-5 (DDR5): MT/s and the module's peak in MB/s.
const PUBLISHED = {
  DDR3: [
    [800, 6400],
    [1066, 8528],
    [1333, 10664],
    [1600, 12800],
    [1866, 14928],
    [2133, 17064],
  ],
  DDR4: [
    [1600, 12800],
    [1866, 14928],
    [2133, 17064],
    [2400, 19200],
    [2666, 21328],
    [2933, 23464],
    [3200, 25600],
  ],
  DDR5: [
    [3200, 25600],
    [3600, 28800],
    [4000, 32000],
    [4400, 35200],
    [4800, 38400],
    [5200, 41600],
    [5600, 44800],
    [6000, 48000],
    [6400, 51200],
  ],
} as const

test.each(Object.entries(PUBLISHED))('%s has the standard rates, no more and no fewer', (type, rows) => {
  const rates = MEMORY_RATES.filter((r) => r.type === type).map((r) => r.rateMts)
  expect(rates).toEqual(rows.map(([rateMts]) => rateMts))
})

test.each(Object.values(PUBLISHED).flat())('a module at %i MT/s moves %i MB/s', (rateMts, moduleMBs) => {
  expect(moduleGBps(rateMts) * 1000).toBeCloseTo(moduleMBs, 6)
})

// Published example: two channels of DDR4-3200 move 51.2 GB/s.
test('two channels double the rate', () => {
  expect(2 * moduleGBps(3200)).toBeCloseTo(51.2, 10)
})

test('DDR3L has the rates of DDR3, as its standard says', () => {
  const rates = (type: string) => MEMORY_RATES.filter((r) => r.type === type).map((r) => r.rateMts)
  expect(rates('DDR3L')).toEqual(rates('DDR3'))
})
