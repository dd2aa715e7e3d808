import { borderedInverse } from './bordered.ts'
import { dot, factor, solve } from './cholesky.ts'
import { atomMean, curveAt, emptyMatrix } from './curve.ts'
import type { Block, Problem } from './layout.ts'
import { cappedCost, cost, newAt, rowAt, rowVariance } from './rows.ts'
import { type Scales, sharedPrecision } from './scales.ts'

/** Where a title stands: its atoms, and what the last step learned about their curvature. */
export type BlockState = {
  readonly z: Float64Array
  /** Prior precision of each atom, doubt included. */
  readonly precision: Float64Array
  /** How far each row is believed; of a capped row, its precision times its variance. */
  readonly weight: Float64Array
  /** Inverse of the title's own curvature, shared figures held. */
  readonly inverse: Float64Array
  /** `inverse` times the title's own gradient: the step it would take alone. */
  readonly alone: Float64Array
}

export type State = { readonly x: Float64Array; readonly blocks: readonly BlockState[] }

/**
 * Curvature and own step of one title at (x, z).
 *
 * @param damping share that each figure on the curvature's diagonal counts more
 */
export function atBlock(
  problem: Problem,
  scales: Scales,
  b: number,
  x: Float64Array,
  z: Float64Array,
  damping = 0,
): BlockState {
  const block = problem.blocks[b] as Block
  const { curvature, gradient, precision, weight } = curveAt(
    problem,
    scales,
    block,
    x,
    z,
    damping,
    emptyMatrix(z.length),
  )
  const inverse = borderedInverse(curvature, z.length, block.heads)
  return { z, precision, weight, inverse, alone: timesVector(inverse, gradient) }
}

/** A square matrix times a vector. */
function timesVector(matrix: Float64Array, vector: Float64Array): Float64Array {
  const n = vector.length
  const out = new Float64Array(n)
  for (let i = 0; i < n; i++) out[i] = dot(matrix, i * n, vector, 0, n)
  return out
}

/** Sums of all titles' shares: curvature and gradient of the shared figures, titles eliminated. */
export type SharedSums = { readonly curvature: Float64Array; readonly gradient: Float64Array }

export const emptySums = (n: number): SharedSums => ({
  curvature: new Float64Array(n * n),
  gradient: new Float64Array(n),
})

/**
 * Adds (or with sign -1 takes away) a title's share: `M' (D - D Hi D) M` and `M' D (z - M x + Hi g)`. M has at most
 * three figures a row, so this gathers entries of the inverse. Only the lower triangle is kept.
 */
export function addShare(
  sums: SharedSums,
  block: Block,
  state: BlockState,
  x: Float64Array,
  sign: 1 | -1,
): void {
  const { meanAt, meanOf, meanBy } = block
  const { precision, inverse } = state
  const n = block.atomKeys.length
  addPull(sums.gradient, block, state, x, sign)
  const width = sums.gradient.length
  for (let i = 0; i < n; i++) {
    const [from, to] = [meanAt[i] as number, meanAt[i + 1] as number]
    if (from === to) continue
    const di = precision[i] as number
    for (let k = 0; k <= i; k++) {
      const [fromK, toK] = [meanAt[k] as number, meanAt[k + 1] as number]
      if (fromK === toK) continue
      const q = sign * ((k === i ? di : 0) - di * (inverse[i * n + k] as number) * (precision[k] as number))
      for (let e = from; e < to; e++)
        for (let f = fromK; f < toK; f++) {
          const value = q * (meanBy[e] as number) * (meanBy[f] as number)
          addLower(sums.curvature, width, meanOf[e] as number, meanOf[f] as number, value, k !== i)
        }
    }
  }
}

/** The gradient of that share. */
export function addPull(
  gradient: Float64Array,
  block: Block,
  { z, precision, alone }: Pick<BlockState, 'z' | 'precision' | 'alone'>,
  x: Float64Array,
  sign: 1 | -1,
): void {
  const pull = new Float64Array(z.length)
  for (let i = 0; i < z.length; i++)
    pull[i] =
      sign * (precision[i] as number) * ((z[i] as number) - atomMean(block, i, x) + (alone[i] as number))
  addTimes(gradient, block, pull)
}

/** Adds `M' v`: what atoms hand on to the shared figures. */
export function addTimes(to: Float64Array, { meanAt, meanOf, meanBy }: Block, v: Float64Array): void {
  for (let i = 0; i < v.length; i++)
    for (let e = meanAt[i] as number, end = meanAt[i + 1] as number; e < end; e++) {
      const m = meanOf[e] as number
      to[m] = (to[m] as number) + (meanBy[e] as number) * (v[i] as number)
    }
}

/** One of a pair of mirrored entries: off the diagonal of atoms both are meant, and may meet on a shared diagonal. */
function addLower(
  matrix: Float64Array,
  n: number,
  r: number,
  c: number,
  value: number,
  mirrored: boolean,
): void {
  if (mirrored) {
    const k = r > c ? r * n + c : c * n + r
    matrix[k] = (matrix[k] as number) + (r === c ? 2 * value : value)
  } else if (r >= c) {
    const k = r * n + c
    matrix[k] = (matrix[k] as number) + value
  }
}

/** Step of the shared figures from the sums: `dx = S^-1 g`, S and g with the prior of the shared figures. */
export function sharedStep(problem: Problem, scales: Scales, sums: SharedSums, x: Float64Array, damping = 0) {
  const n = x.length
  const lower = sharedFactor(problem, scales, sums, damping)
  return { lower, step: solve(lower, n, sharedGradient(problem, scales, sums.gradient, x)) }
}

/** Cholesky factor of the sums' curvature with the prior of the shared figures. */
export function sharedFactor(problem: Problem, scales: Scales, sums: SharedSums, damping = 0): Float64Array {
  const n = sums.gradient.length
  const curvature = sums.curvature.slice()
  const prior = sharedPrecision(problem, scales)
  for (let i = 0; i < n; i++)
    curvature[i * n + i] = (1 + damping) * ((curvature[i * n + i] as number) + (prior[i] as number))
  return factor(curvature, n)
}

/** The sums' gradient at x, with that of the prior. */
export function sharedGradient(
  problem: Problem,
  scales: Scales,
  gradient: Float64Array,
  x: Float64Array,
): Float64Array {
  const prior = sharedPrecision(problem, scales)
  const { mean } = problem.shared
  return gradient.map((value, i) => value - (prior[i] as number) * ((x[i] as number) - (mean[i] as number)))
}

/** A title's step once the shared figures moved by dx: `Hi (g + D M dx)`. */
export function blockStep(block: Block, state: BlockState, dx: Float64Array, withOwn = true): Float64Array {
  const n = block.atomKeys.length
  const moved = new Float64Array(n)
  for (let i = 0; i < n; i++) moved[i] = (state.precision[i] as number) * atomMean(block, i, dx)
  const step = timesVector(state.inverse, moved)
  if (withOwn) for (let i = 0; i < n; i++) step[i] = (state.alone[i] as number) + (step[i] as number)
  return step
}

/** What a fit makes small: cost of all rows, of all atoms around their means, and of the shared figures. */
export function objective(
  problem: Problem,
  scales: Scales,
  x: Float64Array,
  zs: readonly Float64Array[],
): number {
  const { nuRuns, nuInteractions } = problem.priors
  const at = newAt()
  let total = 0
  problem.blocks.forEach((block, b) => {
    const z = zs[b] as Float64Array
    for (let j = 0; j < block.y.length; j++) {
      rowAt(block, j, z, problem.form, at)
      const variance = rowVariance(block, j, scales)
      const y = block.y[j] as number
      total += block.capped[j] ? cappedCost(y, at.t, variance) : cost(nuRuns, (y - at.t) ** 2 / variance)
    }
    for (let i = 0; i < z.length; i++) {
      const cls = block.atomClass[i] as number
      const off = ((z[i] as number) - atomMean(block, i, x)) / (scales.of[cls] as number)
      total += problem.classes.robust[cls] ? cost(nuInteractions, off * off) : (off * off) / 2
    }
  })
  const prior = sharedPrecision(problem, scales)
  for (let i = 0; i < x.length; i++)
    total += ((prior[i] as number) * ((x[i] as number) - (problem.shared.mean[i] as number)) ** 2) / 2
  return total
}
