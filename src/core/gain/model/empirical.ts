import { dot } from './cholesky.ts'
import { atomMean } from './curve.ts'
import type { Block, Problem } from './layout.ts'
import { allMoves, type SharedPosterior, sharedPosterior } from './posterior.ts'
import { doubt, newAt, rowAt, rowVariance } from './rows.ts'
import type { Scales } from './scales.ts'
import type { BlockState, SharedSums, State } from './step.ts'

/**
 * Spreads learned from the runs, once: `s^2 = (nu0 s0^2 + sum w (off^2 + var off)) / (nu0 + n)` for each class of atoms
 * and for parts around their nominal figure; sigma from repeats of a cell, tau from what cells leave over.
 */
export function learnedScales(problem: Problem, scales: Scales, state: State, sums: SharedSums): Scales {
  const { classes, priors } = problem
  const shared = sharedPosterior(problem, scales, sums)
  const sum = Float64Array.from(classes.s0, (s0, k) => (classes.nu0[k] as number) * s0 * s0)
  const count = classes.nu0.slice()
  const left = { sum: priors.tau.nu0 * priors.tau.s0 ** 2, count: priors.tau.nu0 }
  problem.blocks.forEach((block, b) => {
    const at = state.blocks[b] as BlockState
    const moves = allMoves(block, at, shared)
    addAtoms(problem, scales, block, at, state.x, shared, moves, sum, count)
    addCells(problem, scales, block, at, shared, moves, left)
  })
  const { least, most } = priors.tau
  const parts = nominalScales(problem, state, shared)
  return {
    of: sum.map((s, k) => Math.sqrt(s / (count[k] as number))),
    tau: Math.min(most, Math.max(least, Math.sqrt(left.sum / left.count))),
    sigma: repeatScatter(problem),
    processorNominal: parts[1],
    cardNominal: parts[2],
  }
}

function addAtoms(
  { classes, priors }: Problem,
  scales: Scales,
  block: Block,
  { z, inverse }: BlockState,
  x: Float64Array,
  { root, n }: SharedPosterior,
  moves: Float64Array,
  sum: Float64Array,
  count: Float64Array,
): void {
  const atoms = z.length
  const row = new Float64Array(n)
  for (let i = 0; i < atoms; i++) {
    const cls = block.atomClass[i] as number
    const sd = scales.of[cls] as number
    const off = (z[i] as number) - atomMean(block, i, x)
    // Variance of z - M x: its own, and (Hi D M - M) R for what the shared figures move.
    for (let m = 0; m < n; m++) row[m] = moves[i * n + m] as number
    for (let e = block.meanAt[i] as number, end = block.meanAt[i + 1] as number; e < end; e++) {
      const from = (block.meanOf[e] as number) * n
      const by = block.meanBy[e] as number
      for (let m = block.meanOf[e] as number; m < n; m++)
        row[m] = (row[m] as number) - by * (root[from + m] as number)
    }
    const variance = (inverse[i * atoms + i] as number) + dot(row, 0, row, 0, n)
    const weight = classes.robust[cls] ? doubt(priors.nuInteractions, (off * off) / (sd * sd)) : 1
    sum[cls] = (sum[cls] as number) + weight * (off * off + variance)
    count[cls] = (count[cls] as number) + 1
  }
}

function addCells(
  problem: Problem,
  scales: Scales,
  block: Block,
  state: BlockState,
  { n }: SharedPosterior,
  moves: Float64Array,
  left: { sum: number; count: number },
): void {
  const at = newAt()
  const atoms = state.z.length
  const tau2 = scales.tau ** 2
  const along = new Float64Array(n)
  for (let j = 0; j < block.y.length; j++) {
    if (block.capped[j]) continue
    rowAt(block, j, state.z, problem.form, at)
    const weight = state.weight[j] as number
    const k = (tau2 * weight) / rowVariance(block, j, scales)
    const residual = (block.y[j] as number) - at.t
    const { index, slope } = slopesOf(block, j, at.inA, at.inB, at.inP)
    let variance = 0
    along.fill(0)
    for (let e = 0; e < index.length; e++) {
      const i = index[e] as number
      const s = slope[e] as number
      for (let f = 0; f < index.length; f++)
        variance += s * (slope[f] as number) * (state.inverse[i * atoms + (index[f] as number)] as number)
      for (let m = 0; m < n; m++) along[m] = (along[m] as number) + s * (moves[i * n + m] as number)
    }
    variance += dot(along, 0, along, 0, n)
    left.sum += (k * residual) ** 2 + tau2 * (1 - Math.min(1, k)) + k * k * variance
    left.count++
  }
}

/** Atoms of a row and the slope of its log frame time in each. */
export function slopesOf(block: Block, j: number, inA: number, inB: number, inP: number) {
  const index: number[] = []
  const slope: number[] = []
  for (let e = block.rowAt[j] as number, end = block.rowAt[j + 1] as number; e < end; e++) {
    index.push(block.rowAtom[e] as number)
    slope.push(inA * (block.rowA[e] as number) + inB * (block.rowB[e] as number))
  }
  if (block.sharpness >= 0) {
    index.push(block.sharpness)
    slope.push(inP)
  }
  return { index, slope }
}

/** Spread of parts around their nominal figure: [unused, processors, cards]. */
function nominalScales(
  problem: Problem,
  { x }: State,
  { root, n }: SharedPosterior,
): [number, number, number] {
  const { processorNominal, cardNominal } = problem.priors.parts
  const learn = (scale: 1 | 2, { s0, nu0 }: { s0: number; nu0: number }): number => {
    let sum = nu0 * s0 * s0
    let count = nu0
    for (let i = 0; i < n; i++) {
      if (problem.shared.scale[i] !== scale) continue
      let variance = 0
      for (let m = i; m < n; m++) variance += (root[i * n + m] as number) ** 2
      sum += (x[i] as number) ** 2 + variance
      count++
    }
    return Math.sqrt(sum / count)
  }
  return [0, learn(1, processorNominal), learn(2, cardNominal)]
}

/** How repeats of one cell scatter, each doubted as run noise is. */
function repeatScatter({ blocks, priors }: Problem): number {
  const { s0, nu0 } = priors.sigma
  let sum = nu0 * s0 * s0
  let count = nu0
  for (const block of blocks)
    for (const logs of block.repeatLogs) {
      if (logs.length < 2) continue
      const mean = logs.reduce((s, y) => s + y, 0) / logs.length
      for (const y of logs) sum += doubt(priors.nuRuns, ((y - mean) / s0) ** 2) * (y - mean) ** 2
      count += logs.length - 1
    }
  return Math.sqrt(sum / count)
}
