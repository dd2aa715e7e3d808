import type { Patience } from './descend.ts'
import { learnedScales } from './empirical.ts'
import { type Iterated, iterate, type Point, startPoint, USUAL_PATIENCE } from './iterate.ts'
import type { Problem } from './layout.ts'
import { type Scales, startScales } from './scales.ts'
import type { SharedSums, State } from './step.ts'

/** A problem with its answer: the most likely point, and what the last look at it learned. */
export type Solved = {
  readonly problem: Problem
  readonly scales: Scales
  readonly state: State
  readonly sums: SharedSums
  readonly objective: number
  readonly steps: number
  /** Cholesky factor of the shared figures' curvature, or of one near it; absent until a run is added. */
  readonly lower?: Float64Array | undefined
}

/** Fits one problem: steps, one learning of the spreads, steps again. */
export function solveProblem(
  problem: Problem,
  start: Point = startPoint(problem),
  patience: Patience = USUAL_PATIENCE,
): Solved {
  const scales = startScales(problem)
  const first = iterate(problem, scales, start, patience)
  if (!problem.priors.empiricalBayes || problem.blocks.length === 0)
    return solvedOf(problem, scales, first, first.steps)
  const learned = learnedScales(problem, scales, first.state, first.sums)
  const point = { x: first.state.x, zs: first.state.blocks.map(({ z }) => z) }
  const second = iterate(problem, learned, point, patience, first.sums)
  return solvedOf(problem, learned, second, first.steps + second.steps)
}

const solvedOf = (
  problem: Problem,
  scales: Scales,
  { state, sums, objective }: Iterated,
  steps: number,
): Solved => ({ problem, scales, state, sums, objective, steps })
