import { byText } from '../cellOf.ts'
import type { Fit } from '../model/fit.ts'
import { rowVariance } from '../model/rows.ts'
import { copyKey, type Run } from '../run.ts'
import { type Expecting, expecting as expectingOf } from './expect.ts'
import { cellOfRun, disagree, isHeld, type Judged, judge, judgePair, logTime, placeOf } from './judge.ts'
import { type Neighbours, neighboursOf } from './neighbours.ts'
import type { Odd, OddRuns } from './odd.ts'
import { reversalsIn } from './reversals.ts'

/** A reading this near (in spreads of its row) to the model is not looked at: even unheard it would not be far. */
const SURELY_NEAR = 1.2

/** All that judging runs of one fit takes; made once a fit. */
export type OddDesk = {
  /** Runs of the fit that do not fit, and parts that are slower in one title than elsewhere. */
  readonly all: () => OddRuns
  /** The same of runs that the fit has not heard: what was just typed. Undefined where nothing is known of the like. */
  readonly judge: (run: Run) => Odd | undefined
}

export function oddDesk(fit: Fit): OddDesk {
  const expecting = expectingOf(fit)
  let neighbours: Neighbours | undefined
  const near = (): Neighbours => {
    neighbours ??= neighboursOf(fit)
    return neighbours
  }
  let all: OddRuns | undefined
  return {
    all: () => {
      all ??= { odd: oddIn(expecting, near()), reversals: reversalsIn(fit) }
      return all
    },
    judge: (run) => {
      const place = placeOf(fit, run)
      const block = place === undefined ? -1 : expecting.blockOf(place)
      if (place === undefined || block < 0 || isHeld(run, fit)) return undefined
      const own = cellOfRun(fit, run, place)
      const copy = copyKey(run)
      const others = (own?.runs ?? []).filter((other) => !isHeld(other, fit) && copyKey(other) !== copy)
      return judge(expecting, { run, place, block, others, ...unheardOf(fit, block, own) }, near())
    },
  }
}

const unheardOf = (
  fit: Fit,
  block: number,
  cell: Fit['cells'][number] | undefined,
): Pick<Judged, 'unheard'> => {
  const row = cell === undefined ? -1 : (fit.average.problem.blocks[block]?.cells.indexOf(cell) ?? -1)
  return row < 0 ? {} : { unheard: { block, row } }
}

function oddIn(expecting: Expecting, neighbours: Neighbours): readonly Odd[] {
  const { fit } = expecting
  const { problem, scales } = fit.average
  const found: Odd[] = []
  problem.blocks.forEach((block, b) => {
    block.cells.forEach((cell, row) => {
      if (block.capped[row]) return
      const runs = cell.runs.filter((run) => !isHeld(run, fit))
      const modelLog = neighbours.modelLog(b, row)
      const spread = Math.sqrt(rowVariance(block, row, scales))
      const judgedOf = (run: Run): Judged => ({
        ...{ run, place: cell, block: b, unheard: { block: b, row } },
        others: runs.filter((other) => other.id !== run.id),
      })
      const [one, other] = runs
      if (one !== undefined && other !== undefined && runs.length === 2 && disagree(one, other)) {
        found.push(...judgePair(expecting, [judgedOf(one), judgedOf(other)], neighbours))
        return
      }
      for (const run of runs) {
        if (Math.abs(logTime(run) - modelLog) <= SURELY_NEAR * spread) continue
        const odd = judge(expecting, judgedOf(run), neighbours)
        if (odd !== undefined) found.push(odd)
      }
    })
  })
  return found.sort((p, q) => byText(p.runId, q.runId))
}
