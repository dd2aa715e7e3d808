import { normal } from 'jstat'
import { describe, expect, test } from 'vitest'
import { bandOf, isIn, wilson, Z_95 } from '../../../../src/core/gain/reliability/share.ts'

describe('score interval of a share', () => {
  // Newcombe, Statistics in Medicine 17, 1998, table I, method 3 (Wilson, no continuity correction); from memory.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%d of %d: %d to %d', (kept, n, low, high) => {
    const range = wilson(kept / n, n)
    expect(range.low).toBeCloseTo(low, 4)
    expect(range.high).toBeCloseTo(high, 4)
  })

  // Its definition: at either end the share seen is just z of that end's own standard errors away.
  test.each([
    [33, 41],
    [7, 12],
    [160, 200],
  ])('%d of %d: the ends are z standard errors away, z as jStat has it', (kept, n) => {
    const share = kept / n
    const z = normal.inv(0.975, 0, 1)
    expect(Z_95).toBeCloseTo(z, 8)
    const { low, high } = wilson(share, n)
    for (const end of [low, high])
      expect(Math.abs(share - end)).toBeCloseTo(z * Math.sqrt((end * (1 - end)) / n), 8)
  })

  test('the band of an honest shop is the same test turned round', () => {
    for (let kept = 0; kept <= 30; kept++) {
      const seen = kept / 30
      expect(isIn(seen, bandOf(0.8, 30)), `${kept} of 30`).toBe(isIn(0.8, wilson(seen, 30)))
    }
  })

  test('nothing seen, nothing known', () => {
    expect(wilson(0, 0)).toEqual({ low: 0, high: 1 })
    expect(bandOf(0.8, 0)).toEqual({ low: 0, high: 1 })
  })
})
