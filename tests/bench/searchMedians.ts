import { onlyWith } from '../../src/core/ranking/search/bundles.ts'
import { cautiousOf, medianOf } from '../../src/core/ranking/search/cells.ts'
import { frontierOf } from '../../src/core/ranking/search/sweep.ts'
import { shopOf } from '../core/ranking/search/shopOf.ts'

/*
 * The goals of the bundle search are medians: 500 items and 12 titles on one free core, median frontier 10 ms, lower ends 40 ms,
 * why not this part 10 ms.
 */

/** Passes until the code is compiled, and those that count. */
const [COLD, WARM] = [50, 101]

function median(work: () => unknown): string {
  const times = Array.from({ length: COLD + WARM }, () => {
    const began = performance.now()
    work()
    return performance.now() - began
  })
  const warm = times.slice(COLD).sort((a, b) => a - b)
  return `${(warm[WARM >> 1] ?? Number.NaN).toFixed(1)} ms`
}

const { space, cells } = shopOf(500, 12, 5)
const forced = onlyWith(space, { card: [Math.floor(space.cards.length / 2)] })
if (forced === undefined) throw new Error('no card')
const told = [
  `median frontier ${median(() => frontierOf(space, medianOf(cells)))} (goal 10)`,
  `lower ends ${median(() => frontierOf(space, cautiousOf(cells)))} (goal 40)`,
  `why not this card ${median(() => frontierOf(forced, medianOf(cells)))} (goal 10)`,
]
process.stdout.write(`500 items, 12 titles, medians of ${WARM} passes after ${COLD}: ${told.join('; ')}\n`)
