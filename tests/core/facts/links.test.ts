import { expect, test } from 'vitest'
import { LINK_GENERATIONS, linkGBps } from '../../../src/core/facts/links.ts'

// PCI Express Base Specification figures for generations 1 to 5 as published: GB/s per lane, x4, x8, x16, decimal,
// one direction. They are printed rounded, so each may be off by half its last digit.
test.each([
  { gen: 1, lane: 0.25, x4: 1.0, x8: 2.0, x16: 4.0 },
  { gen: 2, lane: 0.5, x4: 2.0, x8: 4.0, x16: 8.0 },
  { gen: 3, lane: 0.9846, x4: 3.938, x8: 7.877, x16: 15.754 },
  { gen: 4, lane: 1.9692, x4: 7.877, x8: 15.754, x16: 31.508 },
  { gen: 5, lane: 3.9385, x4: 15.754, x8: 31.508, x16: 63.015 },
])('generation $gen gives $lane GB/s a lane and $x16 at x16', ({ gen, lane, x4, x8, x16 }) => {
  expect(linkGBps(gen, 1)).toBeCloseTo(lane, 3.99)
  expect(linkGBps(gen, 4)).toBeCloseTo(x4, 3)
  expect(linkGBps(gen, 8)).toBeCloseTo(x8, 3)
  expect(linkGBps(gen, 16)).toBeCloseTo(x16, 3)
})

// PCI Express Base Specification: raw rates and line coding.
test.each([
  [1, 2.5, '8b/10b'],
  [2, 5, '8b/10b'],
  [3, 8, '128b/130b'],
  [4, 16, '128b/130b'],
  [5, 32, '128b/130b'],
])('generation %i runs at %d GT/s with %s', (gen, rateGTps, coding) => {
  const row = LINK_GENERATIONS.find((g) => g.gen === gen)
  expect(row).toMatchObject({ rateGTps, coding })
  expect(coding).toBe(`${row?.dataBits}b/${row?.codedBits}b`)
})

// Worked example: a gen 4 x8 card in a gen 3 slot has 7.877 GB/s, in a gen 4 slot 15.754.
test('eight lanes of generation 4 carry what sixteen of generation 3 do', () => {
  expect(linkGBps(4, 8)).toBe(linkGBps(3, 16))
})

test.each([
  [6, 16],
  [0, 16],
  [3.5, 16],
  [Number.NaN, 16],
  [4, 0],
  [4, 3],
  [4, 32],
  [4, -8],
  [4, Number.NaN],
])('there is no figure for generation %d with %d lanes', (gen, lanes) => {
  expect(linkGBps(gen, lanes)).toBeUndefined()
})
