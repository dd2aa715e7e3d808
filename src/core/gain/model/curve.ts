import type { Block, Problem } from './layout.ts'
import { type At, cappedPull, doubt, newAt, rowAt, rowVariance } from './rows.ts'
import type { Scales } from './scales.ts'

/** Mean of atom i as the shared figures have it. */
export function atomMean({ meanAt, meanOf, meanBy }: Block, i: number, x: Float64Array): number {
  let mean = 0
  for (let e = meanAt[i] as number, end = meanAt[i + 1] as number; e < end; e++)
    mean += (meanBy[e] as number) * (x[meanOf[e] as number] as number)
  return mean
}

export const atomMeans = (block: Block, x: Float64Array): Float64Array =>
  Float64Array.from(block.atomKeys, (_, i) => atomMean(block, i, x))

/** How one title's cost falls and bends in its atoms at a point, shared figures held. */
export type Curve = {
  /** Gauss-Newton: `J'WJ + D`, lower triangle of atoms x atoms, row-major. */
  readonly curvature: Float64Array
  /** Which way the cost falls. */
  readonly gradient: Float64Array
  /** Prior precision of each atom, doubt included. */
  readonly precision: Float64Array
  /** How far each row is believed; of a capped row, its precision times its variance. */
  readonly weight: Float64Array
}

/**
 * A title's curve at (x, z).
 *
 * @param damping share that each figure on the curvature's diagonal counts more
 * @param into zeros for the curvature
 */
export function curveAt(
  problem: Problem,
  scales: Scales,
  block: Block,
  x: Float64Array,
  z: Float64Array,
  damping: number,
  into: Float64Array,
): Curve {
  const n = z.length
  const { nuRuns, nuInteractions } = problem.priors
  const curvature = into
  const gradient = new Float64Array(n)
  const precision = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const cls = block.atomClass[i] as number
    const sd = scales.of[cls] as number
    const off = (z[i] as number) - atomMean(block, i, x)
    const weight = problem.classes.robust[cls] ? doubt(nuInteractions, (off * off) / (sd * sd)) : 1
    const own = weight / (sd * sd)
    precision[i] = own
    curvature[i * n + i] = own
    gradient[i] = -own * off
  }
  const rows = block.y.length
  const weights = new Float64Array(rows)
  const at = newAt()
  for (let j = 0; j < rows; j++) {
    rowAt(block, j, z, problem.form, at)
    const variance = rowVariance(block, j, scales)
    const residual = (block.y[j] as number) - at.t
    let pull: number
    let weight: number
    if (block.capped[j]) {
      const one = cappedPull(block.y[j] as number, at.t, variance)
      pull = one.pull
      weight = one.precision
      weights[j] = weight * variance
    } else {
      weights[j] = doubt(nuRuns, (residual * residual) / variance)
      weight = (weights[j] as number) / variance
      pull = weight * residual
    }
    addRow(block, j, at, weight, pull, curvature, gradient, n)
  }
  for (let i = 0; i < n; i++) curvature[i * n + i] = (1 + damping) * (curvature[i * n + i] as number)
  return { curvature, gradient, precision, weight: weights }
}

/** Slopes of one row, reused from row to row. */
let slopes = new Float64Array(64)

function addRow(
  { rowAt: from, rowAtom, rowA, rowB, sharpness }: Block,
  j: number,
  at: At,
  weight: number,
  pull: number,
  curvature: Float64Array,
  gradient: Float64Array,
  n: number,
): void {
  const start = from[j] as number
  const count = (from[j + 1] as number) - start
  if (slopes.length < count) slopes = new Float64Array(2 * count)
  const { inA, inB, inP } = at
  for (let e = 0; e < count; e++) {
    const i = rowAtom[start + e] as number
    const slope = inA * (rowA[start + e] as number) + inB * (rowB[start + e] as number)
    slopes[e] = slope
    gradient[i] = (gradient[i] as number) + slope * pull
    const scaled = weight * slope
    const row = i * n
    // Atoms of a row rise, so this is the lower triangle.
    for (let f = 0; f <= e; f++) {
      const k = row + (rowAtom[start + f] as number)
      curvature[k] = (curvature[k] as number) + scaled * (slopes[f] as number)
    }
    if (sharpness >= 0) {
      const k = sharpness > i ? sharpness * n + i : row + sharpness
      curvature[k] = (curvature[k] as number) + scaled * inP
    }
  }
  if (sharpness < 0) return
  gradient[sharpness] = (gradient[sharpness] as number) + inP * pull
  const k = sharpness * n + sharpness
  curvature[k] = (curvature[k] as number) + weight * inP * inP
}

/** Zeros to gather a title's curvature in, reused from title to title. */
export function emptyMatrix(n: number): Float64Array {
  if (work.length < n * n) work = new Float64Array(n * n)
  return work.fill(0, 0, n * n)
}
let work = new Float64Array(0)
