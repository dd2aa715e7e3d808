import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { bench, describe } from 'vitest'
import { onlyWith } from '../../src/core/ranking/search/bundles.ts'
import { cautiousOf, medianOf, reachedOf } from '../../src/core/ranking/search/cells.ts'
import { pricing } from '../../src/core/ranking/search/price.ts'
import { frontier, frontierOf, type Objective } from '../../src/core/ranking/search/sweep.ts'
import { bestByHighs } from '../core/ranking/search/highs.ts'
import { asShop, KNAPSACKS } from '../core/ranking/search/knapsacks.ts'
import { type Figures, shopOf } from '../core/ranking/search/shopOf.ts'

/*
 * The bundle search on invented shelves, fits and platforms handed in (they are laid out once a machine and shelf), cells worked
 * out as they are asked for. Goals on one free core, 500 items and 12 titles: median frontier 10 ms, lower ends 40 ms, why not
 * this part 10 ms. Every pass prices anew. Read ratios where other things run.
 */
const whole = ({ space }: Figures, objective: Objective) => void frontierOf(space, objective)
const few = { time: 0, iterations: 3, warmupIterations: 1, warmupTime: 0 }
const some = { time: 0, iterations: 25, warmupIterations: 5, warmupTime: 0 }

// In a process of its own, as the program runs it: the bench's own loader makes every call between files dearer.
process.stdout.write(
  `\n${execFileSync(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('./searchMedians.ts', import.meta.url))])}`,
)

describe('12 titles, growth; baseline: the median of 500 items', () => {
  for (const items of [500, 100, 2000]) {
    const shop = shopOf(items, 12, 5)
    const often = items > 1000 ? { ...some, iterations: 8 } : some
    bench(
      `median frontier, ${items} items, ${shop.space.platforms.length} platforms`,
      () => whole(shop, medianOf(shop.cells)),
      often,
    )
    bench(`lower ends, ${items} items`, () => whole(shop, cautiousOf(shop.cells)), often)
    bench(
      `cheapest to each number of titles, ${items} items`,
      () => whole(shop, reachedOf(shop.cells)),
      often,
    )
    const card = Math.floor(shop.space.cards.length / 2)
    const forced = onlyWith(shop.space, { card: [card] })
    if (forced === undefined) throw new Error('no card')
    bench(`why not this card, ${items} items`, () => void frontierOf(forced, medianOf(shop.cells)), often)
  }
})

describe('100 items, 4 titles, best in a budget; baseline: HiGHS', () => {
  const shop = shopOf(100, 4, 3)
  const objective = medianOf(shop.cells)
  const steps = frontierOf(shop.space, objective)
  const budgetMinor = Math.round((steps.at(-1)?.netMinor ?? 0) / 2)
  const gainOf = (q: number, g: number) => objective.at(q, g, Number.NEGATIVE_INFINITY)
  bench(
    'HiGHS',
    async () => {
      await bestByHighs(shop, budgetMinor, gainOf)
    },
    few,
  )
  bench('the whole frontier', () => whole(shop, medianOf(shop.cells)), some)
  bench(
    'the frontier up to the budget',
    () =>
      void frontier({ space: shop.space, prices: pricing(shop.space), objective, upToMinor: budgetMinor }),
    some,
  )
})

describe('published knapsack P08, 16.7 million pairs; baseline: P07', () => {
  for (const knapsack of KNAPSACKS.filter(({ name }) => name === 'P07' || name === 'P08')) {
    const { space, cells, unit } = asShop(knapsack)
    bench(
      knapsack.name,
      () => {
        const within = frontier({
          ...{ space, prices: pricing(space), objective: medianOf(cells), upToMinor: knapsack.capacity },
        })
        const best = Math.round((within.at(-1)?.value ?? 0) / unit)
        if (best !== knapsack.optimum) throw new Error(`${knapsack.name}: ${best} for ${knapsack.optimum}`)
      },
      { ...few, iterations: 1 },
    )
  }
})
