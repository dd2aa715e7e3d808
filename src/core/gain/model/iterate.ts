import { descend, type Patience } from './descend.ts'
import type { Block, Problem } from './layout.ts'
import type { Scales } from './scales.ts'
import {
  addShare,
  atBlock,
  atomMeans,
  type BlockState,
  blockStep,
  emptySums,
  objective,
  type SharedSums,
  type State,
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
 */
export function iterate(problem: Problem, scales: Scales, start: Point, patience: Patience): Iterated {
  const { point, cost, steps } = descend<Point>(
    {
      cost: ({ x, zs }) => objective(problem, scales, x, zs),
      step: ({ x, zs }, damping) => {
        const { blocks, sums } = look(problem, scales, x, zs, damping)
        const { step: dx } = sharedStep(problem, scales, sums, x, damping)
        const dzs = problem.blocks.map((block, b) => blockStep(block, blocks[b] as BlockState, dx))
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

function moved(from: Float64Array, by: Float64Array, share: number): Float64Array {
  const to = from.slice()
  for (let i = 0; i < to.length; i++) to[i] = (to[i] as number) + share * (by[i] as number)
  return to
}
