import fc from 'fast-check'
import { expect, test } from 'vitest'
import { applyChange, partsOf } from '../../../src/core/build.ts'
import { compileFit, DIMENSIONS } from '../../../src/core/fit/compiled.ts'
import { freshly, limitsAfter, limitsOnDemand } from '../../../src/core/limits/after.ts'
import { LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import { runs } from '../../runs.ts'
import { policy } from '../fit/bench.ts'
import { someMoves } from '../ranking/search/drawnMoves.ts'

test('limits that are put together from what is kept are those worked out anew, on changes by chance', () => {
  let back = 0
  fc.assert(
    fc.property(someMoves, fc.infiniteStream(fc.nat({ max: 10 })), ({ machine, moves }, chance) => {
      const next = () => chance.next().value as number
      const { changeOf } = compileFit(machine, policy, moves)
      const fitted = partsOf(machine.build)
      for (let n = 0; n < 40; n++) {
        const drawn = changeOf(
          DIMENSIONS.map((dimension) => Math.max(0, Math.min(next() - 5, moves[dimension].length - 1))),
        )
        // A part that is put in again is the same part, and still ends what was claimed of the one before.
        const again = next() < 2 ? fitted.filter(() => next() < 2) : []
        if (again.length > 0) back++
        const change = { ...drawn, add: [...again, ...drawn.add] }
        const after = applyChange(machine.build, change)
        const fresh = freshly(machine, change, after)
        expect(limitsAfter(machine, change, after)).toEqual(fresh)
        const onDemand = limitsOnDemand(machine, change, after)
        for (const key of LIMIT_KEYS) expect(onDemand[key]).toEqual(fresh[key])
      }
    }),
    { numRuns: runs(20) },
  )
  expect(back).toBeGreaterThan(0)
})
