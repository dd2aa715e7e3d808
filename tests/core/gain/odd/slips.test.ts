import { expect, test } from 'vitest'
import { slipsOf } from '../../../../src/core/gain/odd/slips.ts'

/* Slips of the hand that everybody knows (common practice); what each figure may have been is worked out by hand. */

test.each([
  [880, 'ten times', 88],
  [880.5, 'ten times', 88.1],
  [7.8, 'a tenth', 78],
  [78.3, 'swapped', 87.3],
  [73.8, 'swapped', 78.3],
  [778, 'digit twice', 78],
  [7.5, 'digit missing', 73.5],
  [7.5, 'digit missing', 37.5],
] as const)('%s may be %s of %s', (typed, slip, fps) => {
  expect(slipsOf(typed)).toContainEqual(expect.objectContaining({ slip, fps }))
})

test('no figure is its own slip, none is told twice, none is one that the border refuses', () => {
  for (const typed of [1, 9.9, 60, 77.7, 144, 1100, 1999.9]) {
    const meant = slipsOf(typed).map(({ fps }) => fps)
    expect(meant).not.toContain(typed)
    expect(new Set(meant).size).toBe(meant.length)
    for (const fps of meant) expect(fps >= 1 && fps <= 2000).toBe(true)
  }
})
