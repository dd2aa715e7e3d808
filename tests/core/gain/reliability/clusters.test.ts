import { describe, expect, test } from 'vitest'
import { countsAs, withinCorrelation } from '../../../../src/core/gain/reliability/clusters.ts'

describe('how results of one class correlate', () => {
  // Shrout & Fleiss, Psychological Bulletin 86(2), 1979, table 2: six targets, four judges; its table 4 has ICC(1,1) = .17.
  const TARGETS = [
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
  ]

  test('six targets and four judges: 0.17', () => {
    expect(withinCorrelation(TARGETS)).toBeCloseTo(0.17, 2)
    // Mean squares of table 3, from memory: 11.24 between, 6.26 within.
    expect(withinCorrelation(TARGETS)).toBeCloseTo((11.24 - 6.26) / (11.24 + 3 * 6.26), 3)
  })

  // Sokal & Rohlf, Biometry, box 9.1: widths of larvae on four hosts, unequal numbers; 32.1 % of the variance lies among hosts.
  // From memory; the sums of squares of the box (1807.73 among, 3778.00 within) come out of these figures.
  test('classes of unequal size: 32.1 %', () => {
    const hosts = [
      [380, 376, 360, 368, 372, 366, 374, 382],
      [350, 356, 358, 376, 338, 342, 366, 350, 344, 364],
      [354, 360, 362, 352, 366, 372, 362, 344, 342, 358, 351, 348, 348],
      [376, 344, 342, 372, 374, 360],
    ]
    expect(withinCorrelation(hosts)).toBeCloseTo(0.321, 3)
  })

  test('all of one class alike: 1; classes closer together than chance lets them: 0', () => {
    expect(withinCorrelation([[1, 1], [2, 2, 2], [5]])).toBe(1)
    expect(
      withinCorrelation([
        [1, 3],
        [3, 1],
      ]),
    ).toBe(0)
  })

  test.each([
    ['no class', []],
    ['one class', [[1, 2, 3]]],
    ['one value a class', [[1], [2], [3]]],
    [
      'all values alike',
      [
        [2, 2],
        [2, 2],
      ],
    ],
  ])('%s: cannot be told, so 0', (_, classes) => {
    expect(withinCorrelation(classes)).toBe(0)
  })
})

describe('so many independent ones', () => {
  // Kish: 30 in 10 clusters of three: 1 + 0.2 (3 - 1) = 1.4, so 30 / 1.4.
  test('clusters of one kind', () => {
    expect(countsAs(30, [{ sizes: Array.from({ length: 10 }, () => 3), correlation: 0.2 }])).toBeCloseTo(
      30 / 1.4,
      12,
    )
    expect(countsAs(3, [{ sizes: [1, 1, 1], correlation: 0.2 }])).toBe(3)
    expect(countsAs(0, [])).toBe(0)
  })

  // By hand: 12 in 6 pairs and 3 fours: 1 + 0.2 (2 - 1) + 0.5 (4 - 1) = 2.7.
  test('clusters of two kinds add up', () => {
    const pairs = { sizes: [2, 2, 2, 2, 2, 2], correlation: 0.2 }
    expect(countsAs(12, [pairs, { sizes: [4, 4, 4], correlation: 0.5 }])).toBeCloseTo(12 / 2.7, 12)
    expect(countsAs(12, [pairs, { sizes: [4, 4, 4], correlation: 0 }])).toBeCloseTo(12 / 1.2, 12)
  })

  test('one cluster that moves as one counts as one', () => {
    expect(countsAs(50, [{ sizes: [50], correlation: 1 }])).toBeCloseTo(1, 12)
  })
})
