import { dot } from './cholesky.ts'
import type { Block, Problem } from './layout.ts'
import type { Scales } from './scales.ts'
import { type BlockState, type SharedSums, sharedFactor } from './step.ts'

/**
 * What is not known of the shared figures: a root R (row-major, n x n, upper triangle) of their covariance,
 * `S^-1 = R R'`, and S's own factor.
 */
export type SharedPosterior = {
  readonly lower: Float64Array
  readonly root: Float64Array
  readonly n: number
}

export function sharedPosterior(problem: Problem, scales: Scales, sums: SharedSums): SharedPosterior {
  const n = sums.gradient.length
  const lower = sharedFactor(problem, scales, sums)
  // R = L'^-1: row i of it is column i of L^-1.
  const root = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    const row = j * n
    root[row + j] = 1 / (lower[row + j] as number)
    for (let i = j + 1; i < n; i++) {
      root[row + i] = -dot(lower, i * n + j, root, row + j, i - j) / (lower[i * n + i] as number)
    }
  }
  return { lower, root, n }
}

/**
 * `(Hi D M) R` for some atoms of a title given as rows of `picks` (figures over its atoms): how these move with the
 * shared figures, times the root of their covariance. Row-major, picks x n.
 */
export function movesOf(
  block: Block,
  state: BlockState,
  shared: SharedPosterior,
  rows: Float64Array,
): Float64Array {
  const atoms = block.atomKeys.length
  const { n } = shared
  const count = atoms === 0 ? 0 : rows.length / atoms
  const inX = new Float64Array(count * n)
  for (let r = 0; r < count; r++)
    for (let i = 0; i < atoms; i++) {
      const scaled = (rows[r * atoms + i] as number) * (state.precision[i] as number)
      if (scaled === 0) continue
      for (let e = block.meanAt[i] as number, end = block.meanAt[i + 1] as number; e < end; e++) {
        const k = r * n + (block.meanOf[e] as number)
        inX[k] = (inX[k] as number) + scaled * (block.meanBy[e] as number)
      }
    }
  return timesRoot(inX, count, shared)
}

/** Rows over the shared figures times the root of their covariance. Four rows of the root at a time: less is written. */
export function timesRoot(inX: Float64Array, count: number, { root, n }: SharedPosterior): Float64Array {
  const out = new Float64Array(count * n)
  const whole = n - (n % 4)
  for (let r = 0; r < count; r++) {
    const row = r * n
    for (let k = 0; k < whole; k += 4) {
      const v0 = inX[row + k] as number
      const v1 = inX[row + k + 1] as number
      const v2 = inX[row + k + 2] as number
      const v3 = inX[row + k + 3] as number
      if (v0 === 0 && v1 === 0 && v2 === 0 && v3 === 0) continue
      const [k0, k1, k2, k3] = [k * n, (k + 1) * n, (k + 2) * n, (k + 3) * n]
      // Below the diagonal the root is 0.
      for (let m = k; m < n; m++)
        out[row + m] =
          (out[row + m] as number) +
          (v0 * (root[k0 + m] as number) + v1 * (root[k1 + m] as number)) +
          (v2 * (root[k2 + m] as number) + v3 * (root[k3 + m] as number))
    }
    for (let k = whole; k < n; k++) {
      const value = inX[row + k] as number
      if (value === 0) continue
      for (let m = k; m < n; m++)
        out[row + m] = (out[row + m] as number) + value * (root[k * n + m] as number)
    }
  }
  return out
}

/** Every atom of a title against the shared figures: `Hi D M R`, row-major atoms x n. */
export const allMoves = (block: Block, state: BlockState, shared: SharedPosterior): Float64Array =>
  movesOf(block, state, shared, state.inverse)
