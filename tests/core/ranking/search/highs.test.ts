import { expect, test } from 'vitest'
import { medianOf } from '../../../../src/core/ranking/search/cells.ts'
import { frontierOf } from '../../../../src/core/ranking/search/sweep.ts'
import { bestByHighs } from './highs.ts'
import { shopOf } from './shopOf.ts'

test.each([
  { seed: 1, share: 0.3 },
  { seed: 2, share: 0.5 },
  { seed: 3, share: 0.7 },
])(
  'the best in a budget is that of HiGHS, shop $seed',
  async ({ seed, share }) => {
    const shop = shopOf(45, 3, seed)
    const objective = medianOf(shop.cells)
    const steps = frontierOf(shop.space, objective)
    const last = steps.at(-1)
    if (last === undefined) throw new Error('no frontier')
    const budgetMinor = Math.round(last.netMinor * share)
    const best = steps.filter(({ netMinor }) => netMinor <= budgetMinor).at(-1)?.value ?? 0
    const gainOf = (q: number, g: number) => objective.at(q, g, Number.NEGATIVE_INFINITY)
    expect(await bestByHighs(shop, budgetMinor, gainOf)).toBeCloseTo(best, 6)
  },
  60_000,
)
