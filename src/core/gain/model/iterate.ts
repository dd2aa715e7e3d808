import { atomMeans } from './curve.ts'
import { descend, type Patience } from './descend.ts'
import type { Block, Problem } from './layout.ts'
import { leanSteps, type Step } from './lean.ts'
import type { Scales } from './scales.ts'
import {
  addShare,
  atBlock,
  type BlockState,
  blockStep,
  emptySums,
  objective,
  type SharedSums,
  type State,
  sharedFactor,
  sharedStep,
} from './step.ts'

export const USUAL_PATIENCE: Patience = { steps: 14, fall: 0.001 }

export type Point = { readonly x: Float64Array; readonly zs: readonly Float64Array[] }

/** A start from the prior: each title's graphics side explains its runs, the processor side stays below them. */
export function startPoint(problem: Problem): Point {
  const x = problem.shared.mean.slice()
  return { x, zs: problem.blocks.map((block) => startOf(problem, block, x)) }
}

/** A title that starts from what the shared figures say. */
export function startOf(problem: Problem, block: Block, x: Float64Array): Float64Array {
  const z = atomMeans(block, x)
  const { alpha, beta } = block
  if (beta < 0) return z
  const rests: number[] = []
  for (let j = 0; j < block.y.length; j++) {
    let rest = block.y[j] as number
    for (let e = block.rowAt[j] as number, end = block.rowAt[j + 1] as number; e < end; e++) {
      const i = block.rowAtom[e] as number
      if (i !== beta) rest -= (block.rowB[e] as number) * (z[i] as number)
      // In the sum the processor side is a correction like the others.
      if (problem.form === 'sum') rest -= (block.rowA[e] as number) * (z[i] as number)
    }
    rests.push(rest)
  }
  z[beta] = median(rests)
  if (problem.form === 'smax' && alpha >= 0)
    z[alpha] = Math.min(z[alpha] as number, median([...block.y]) - 0.25)
  return z
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length >> 1
  const upper = sorted[half] as number
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2
}

/** All titles and their sums at one point. */
function look(problem: Problem, scales: Scales, x: Float64Array, zs: readonly Float64Array[], damping = 0) {
  const sums = emptySums(x.length)
  const blocks = problem.blocks.map((block, b): BlockState => {
    const state = atBlock(problem, scales, b, x, zs[b] as Float64Array, damping)
    addShare(sums, block, state, x, 1)
    return state
  })
  return { blocks, sums }
}

export type Iterated = {
  readonly state: State
  readonly sums: SharedSums
  readonly objective: number
  readonly steps: number
}

/**
 * Gauss-Newton with doubt renewed at each step. What comes back is looked at anew at its last point, so that curvature
 * and point belong together.
 *
 * @param near sums from near the start, so that the first step need not gather its own
 */
export function iterate(
  problem: Problem,
  scales: Scales,
  start: Point,
  patience: Patience,
  near?: SharedSums,
): Iterated {
  const stepAt = stepping(problem, scales, near)
  const { point, cost, steps } = descend<Point>(
    {
      cost: ({ x, zs }) => objective(problem, scales, x, zs),
      step: ({ x, zs }, damping) => {
        const { dx, dzs } = stepAt(x, zs, damping)
        return (share) => ({
          x: moved(x, dx, share),
          zs: zs.map((z, b) => moved(z, dzs[b] as Float64Array, share)),
        })
      },
    },
    start,
    patience,
  )
  const { blocks, sums } = look(problem, scales, point.x, point.zs)
  return { state: { x: point.x, blocks }, sums, objective: cost, steps }
}

/** The step at a point: lean where a factor from near by leads it, written out where none does and where it is damped. */
function stepping(problem: Problem, scales: Scales, near: SharedSums | undefined) {
  const lean = leanSteps(problem, scales)
  let lower = near && sharedFactor(problem, scales, near)
  return (x: Float64Array, zs: readonly Float64Array[], damping: number): Step => {
    if (damping === 0 && lower !== undefined) {
      const step = lean(x, zs, lower)
      if (step.turns > FAR_TURNS) lower = undefined
      return step
    }
    const { blocks, sums } = look(problem, scales, x, zs, damping)
    const shared = sharedStep(problem, scales, sums, x, damping)
    if (damping === 0) lower = shared.lower
    return {
      dx: shared.step,
      dzs: problem.blocks.map((block, b) => blockStep(block, blocks[b] as BlockState, shared.step)),
    }
  }
}
/** A factor that takes more turns leads no longer: the next step writes out its own. */
const FAR_TURNS = 15

function moved(from: Float64Array, by: Float64Array, share: number): Float64Array {
  const to = from.slice()
  for (let i = 0; i < to.length; i++) to[i] = (to[i] as number) + share * (by[i] as number)
  return to
}
