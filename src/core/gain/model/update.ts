import type { Run } from '../run.ts'
import { catalogOf } from './catalog.ts'
import { blockKey, type Cell, cellsFor } from './cells.ts'
import { type Fit, fitModel, READS } from './fit.ts'
import { iterate, startOf } from './iterate.ts'
import { ageVariance, type Block, blockOf, type Problem, type Reads } from './layout.ts'
import type { Solved } from './solved.ts'
import { saveStart } from './start.ts'
import { addShare, atBlock, type BlockState, blockStep, type SharedSums, sharedStep } from './step.ts'

/** A full refit is due after this share of runs more. */
export const REFIT_AFTER = 0.1

/**
 * The fit with one run more, in milliseconds: the run's title is looked at again, its share in the sums is renewed, and
 * all titles follow the shared figures; spreads stay as they were learned. A part, title or kind of setting that the
 * fit has not met, or a tenth more runs than at the last full fit, takes a full refit. Refit as well each night and when a
 * run is changed or deleted.
 */
export function addRun(fit: Fit, run: Run): Fit {
  const data = { ...fit.data, runs: [...fit.data.runs, run] }
  const added = fit.added + 1
  const refit = (): Fit => fitModel(data, saveStart(fit))
  if (added > REFIT_AFTER * (fit.runs - fit.added)) return refit()
  const setting = fit.catalog.settings.get(run.settingId)
  if (setting === undefined) return { ...fit, data }
  const own = cellsFor(data, run.titleId)
  const key = blockKey(run.titleId, setting)
  const cells = [...fit.cells.filter(({ titleId }) => titleId !== run.titleId), ...own]
  const catalog = catalogOf(data, cells)
  // Names of parts hang on the usual memory, nominal means on which parts have runs: if these moved, all rows did.
  if (!sameTable(catalog.usualMemory, fit.catalog.usualMemory)) return refit()
  if (!sameTable(nominalLogs(catalog), nominalLogs(fit.catalog))) return refit()
  try {
    const update = (which: keyof typeof READS): Solved =>
      withBlock(fit[which], key, (problem) => rebuilt(fit, problem, key, own, READS[which]))
    return {
      ...fit,
      ...{ data, added, cells, catalog },
      runs: cells.reduce((sum, { runs }) => sum + runs.length, 0),
      average: update('average'),
      low: update('low'),
      ratio: update('ratio'),
    }
  } catch (error) {
    if (error instanceof Unmet) return refit()
    throw error
  }
}

const nominalLogs = ({ nominal }: Fit['catalog']): ReadonlyMap<string, number> =>
  new Map([...nominal].map(([id, { log }]) => [id, log]))

const sameTable = <T>(a: ReadonlyMap<string, T>, b: ReadonlyMap<string, T>): boolean =>
  a.size === b.size && [...a].every(([key, value]) => b.get(key) === value)

/** A shared figure or class that the fit has no number for. */
class Unmet extends Error {}

function rebuilt(
  { data, catalog }: Fit,
  { shared, classes, priors, form }: Problem,
  key: string,
  cells: readonly Cell[],
  reads: Reads,
): Block | undefined {
  const numberIn =
    (keys: readonly string[]) =>
    (name: string): number => {
      const i = keys.indexOf(name)
      if (i < 0) throw new Unmet(name)
      return i
    }
  const own = cells.filter((cell) => cell.block === key && reads(cell) !== undefined)
  if (own.length === 0) return undefined
  const age = ageVariance(priors, data.at, data.policy.runWindowDays)
  return blockOf(key, own, catalog, form, reads, age, numberIn(shared.keys), numberIn(classes.keys))
}

/** Puts a title's new block in the place of its old one and takes two steps there. */
function withBlock(solved: Solved, key: string, build: (problem: Problem) => Block | undefined): Solved {
  const { problem, scales } = solved
  const block = build(problem)
  if (block === undefined) return solved
  const b = problem.blocks.findIndex((known) => known.key === key)
  const old = problem.blocks[b]
  const before = solved.state.blocks[b]
  if (old === undefined || before === undefined) throw new Unmet(key)
  const next: Problem = { ...problem, blocks: problem.blocks.map((known, i) => (i === b ? block : known)) }

  let x = solved.state.x
  let z = startOf(next, block, x)
  const numbers = new Map(old.atomKeys.map((atom, i) => [atom, i]))
  block.atomKeys.forEach((atom, i) => {
    const known = numbers.get(atom)
    if (known !== undefined) z[i] = before.z[known] as number
  })
  if (rowsOf(next) < FEW_ROWS) {
    const zs = solved.state.blocks.map((state, i) => (i === b ? z : state.z))
    const { state, sums, objective } = iterate(next, scales, { x, zs }, FEW_STEPS)
    return { ...solved, problem: next, state, sums, objective }
  }
  const sums: SharedSums = {
    curvature: solved.sums.curvature.slice(),
    gradient: solved.sums.gradient.slice(),
  }
  addShare(sums, old, before, x, -1)
  let others = solved.state.blocks
  let own = before
  for (let step = 0; step < STEPS; step++) {
    own = atBlock(next, scales, b, x, z)
    const whole = { curvature: sums.curvature.slice(), gradient: sums.gradient.slice() }
    addShare(whole, block, own, x, 1)
    const { step: dx } = sharedStep(next, scales, whole, x)
    z = plus(z, blockStep(block, own, dx))
    others = others.map((state, i): BlockState => {
      const of = next.blocks[i]
      if (i === b || of === undefined) return state
      return { ...state, z: plus(state.z, blockStep(of, state, dx, false)) }
    })
    // What the others' gradient becomes when the shared figures move: g - S dx.
    subtractProduct(sums, dx)
    x = plus(x, dx)
  }
  own = atBlock(next, scales, b, x, z)
  addShare(sums, block, own, x, 1)
  return {
    ...solved,
    problem: next,
    state: { x, blocks: others.map((state, i) => (i === b ? own : state)) },
    sums,
  }
}
const STEPS = 2

/** In a small shop one run moves everything: all titles take steps of their own, which costs as little there. */
const FEW_ROWS = 400
const FEW_STEPS = { steps: 4, fall: 0.01 }
const rowsOf = ({ blocks }: Problem): number => blocks.reduce((sum, { y }) => sum + y.length, 0)

function plus(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, i) => value + (b[i] as number))
}

/** `g - S dx` from the lower triangle of S. */
function subtractProduct({ curvature, gradient }: SharedSums, dx: Float64Array): void {
  const n = dx.length
  for (let r = 0; r < n; r++)
    for (let c = 0; c <= r; c++) {
      const value = curvature[r * n + c] as number
      gradient[r] = (gradient[r] as number) - value * (dx[c] as number)
      if (c !== r) gradient[c] = (gradient[c] as number) - value * (dx[r] as number)
    }
}
