import { describe, expect, test } from 'vitest'
import { cheapestTo } from '../../../src/core/reach/cheapest.ts'
import { planReach } from '../../../src/core/reach/reach.ts'
import { TWO } from './twoPlatforms.ts'

// Sums worked by hand from the table in twoPlatforms.ts: first cost and further spend together.
const { platforms } = planReach(TWO)

describe('the cheapest machine for a level', () => {
  test.each([
    // A 400 as it is; B 500
    [50, ['A'], 40_000, ['B', 10_000]],
    // A 400 + 115; B 500 + 115
    [70, ['A'], 51_500, ['B', 10_000]],
    // A 400 + 215; B 500 + 115
    [75, ['A', 'B'], 61_500, undefined],
    // A 400 + 215; B 500 + 215
    [80, ['A'], 61_500, ['B', 10_000]],
    // A does not get there; B 500 + 215
    [90, ['B'], 71_500, undefined],
    [131, [], undefined, undefined],
  ] as const)('%d FPS', (fps, names, total, next) => {
    const got = cheapestTo(platforms, fps, 'now')
    expect(got.best.map(({ name }) => name)).toEqual(names)
    expect(got.best[0]?.totalMinor).toBe(total)
    expect(got.next && [got.next.name, got.next.moreMinor]).toEqual(next)
    expect(got.untold).toEqual([])
  })

  test('what has no price or no number is never called cheap: it is named', () => {
    const [a, b] = platforms
    if (a === undefined || b === undefined) throw new Error('two platforms')
    const unpriced = { ...a, unpricedPartIds: ['CPU-OLD'] }
    expect(cheapestTo([unpriced, b], 50, 'now')).toMatchObject({ best: [{ name: 'B' }], untold: ['A'] })
    const never = { ...a, now: { points: [], untoldTitleIds: ['t'] } }
    expect(cheapestTo([never, b], 50, 'now')).toMatchObject({ best: [{ name: 'B' }], untold: ['A'] })
  })

  test('their order does not matter', () => {
    for (const fps of [50, 70, 75, 80, 90])
      expect(new Set(cheapestTo([...platforms].reverse(), fps, 'now').best)).toEqual(
        new Set(cheapestTo(platforms, fps, 'now').best),
      )
  })
})
