import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { knownBy, type MeasuredPair, measuredMap, pairKey } from '../../../src/core/gain/measuredMap.ts'

const pair = (processorId: string, cardId: string, runs: number): MeasuredPair => ({
  ...{ processorId, cardId, runs, titles: 1, lastAt: '2026-05-01T12:00:00.000Z' },
})

describe('what was measured, in the order of use', () => {
  test('nothing', () => expect(measuredMap([])).toEqual({ processors: [], cards: [], pairs: [] }))
  test('sides by the sum of their runs, pairs by their own, ties by id', () => {
    const map = measuredMap(
      Object.freeze([pair('P2', 'C1', 3), pair('P1', 'C2', 3), pair('P1', 'C1', 1), pair('P3', 'C3', 4)]),
    )
    // P1: 3 + 1; P3: 4; P2: 3. C1: 3 + 1; C3: 4; C2: 3.
    expect(map.processors).toEqual([
      { id: 'P1', runs: 4 },
      { id: 'P3', runs: 4 },
      { id: 'P2', runs: 3 },
    ])
    expect(map.cards.map(({ id }) => id)).toEqual(['C1', 'C3', 'C2'])
    expect(map.pairs.map(pairKey)).toEqual(
      [pair('P3', 'C3', 4), pair('P1', 'C2', 3), pair('P2', 'C1', 3), pair('P1', 'C1', 1)].map(pairKey),
    )
  })
  test('law: both sides and the pairs hold every run, and the order of what comes in does not matter', () => {
    const side = fc.integer({ min: 0, max: 6 })
    const pairs = fc.uniqueArray(fc.record({ p: side, c: side, n: fc.integer({ min: 1, max: 9 }) }), {
      selector: ({ p, c }) => `${p} ${c}`,
    })
    fc.assert(
      fc.property(pairs, (drawn) => {
        const list = drawn.map(({ p, c, n }) => pair(`P${p}`, `C${c}`, n))
        const map = measuredMap(list)
        const sum = (of: readonly { runs: number }[]) => of.reduce((s, { runs }) => s + runs, 0)
        expect([sum(map.processors), sum(map.cards), sum(map.pairs)]).toEqual(Array(3).fill(sum(list)))
        expect(measuredMap([...list].reverse())).toEqual(map)
      }),
    )
  })
})

test.each([
  { runs: 0, current: 0, known: 'never' },
  { runs: 1, current: 0, known: 'old' },
  { runs: 40, current: 0, known: 'old' },
  { runs: 1, current: 1, known: 'once' },
  { runs: 40, current: 1, known: 'once' },
  { runs: 2, current: 2, known: 'more' },
] as const)('$runs runs, $current of them current: $known', ({ runs, current, known }) => {
  expect(knownBy(runs, current)).toBe(known)
})
