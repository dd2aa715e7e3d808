import type { Run } from '../run.ts'
import { usualMemory } from './catalog.ts'
import { blockKey, type Cell, cellsFor } from './cells.ts'
import { solveNear, times } from './conjugate.ts'
import { type Fit, fitModel, READS } from './fit.ts'
import { iterate, startOf } from './iterate.ts'
import { ageVariance, type Block, blockOf, entriesOnce, type Problem, type Reads } from './layout.ts'
import { sharedPrecision } from './scales.ts'
import type { Solved } from './solved.ts'
import { saveStart, type Which } from './start.ts'
import {
  addShare,
  atBlock,
  type BlockState,
  blockStep,
  type SharedSums,
  sharedFactor,
  sharedGradient,
} from './step.ts'

/** A full refit is due after this share of runs more. */
export const REFIT_AFTER = 0.1

/**
 * The fit with one run more, in milliseconds: the run's title is looked at again, its share in the sums is renewed, and
 * all titles follow the shared figures; spreads stay as they were learned. The 1 % lows follow when they are first asked
 * for. A part, title or kind of setting that the fit has not met, or a tenth more runs than at the last full fit, takes a
 * full refit. Refit as well each night and when a run is changed or deleted.
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
  // Names of parts hang on the usual memory; if that moved, all rows did.
  const { processorId } = run.fitted
  const usual = usualMemory(cells.filter(({ fitted }) => fitted.processorId === processorId))
  if (usual.get(processorId) !== fit.catalog.usualMemory.get(processorId)) return refit()
  const { name, at, catalog } = fit
  const entries = entriesOnce(catalog)
  const runs = cells.reduce((sum, cell) => sum + cell.runs.length, 0)
  try {
    const put = (which: Which): Pending => {
      const { solved, blocks } = pendingOf(fit, which)
      const block = rebuilt(data, catalog, solved.problem, key, own, READS[which], entries)
      return { solved, blocks: block === undefined ? blocks : new Map([...blocks, [key, block]]) }
    }
    const average = settled(put('average'))
    const pending = { low: put('low'), ratio: put('ratio') }
    return withPending({ name, at, runs, added, data, catalog, cells, average }, pending)
  } catch (error) {
    if (error instanceof Unmet) return refit()
    throw error
  }
}

/** A problem with titles that are still to be looked at again. */
type Pending = { readonly solved: Solved; readonly blocks: ReadonlyMap<string, Block> }
type Lows = { low: Pending; ratio: Pending }
const pendings = new WeakMap<Fit, Lows>()

const pendingOf = (fit: Fit, which: Which): Pending =>
  (which === 'average' ? undefined : pendings.get(fit)?.[which]) ?? { solved: fit[which], blocks: new Map() }

const settled = ({ solved, blocks }: Pending): Solved =>
  [...blocks].reduce((now, [key, block]) => withBlock(now, key, block), solved)

/** A fit whose 1 % lows are brought up to date when they are read. */
function withPending(fit: Omit<Fit, 'low' | 'ratio'>, lows: Lows): Fit {
  const settle = (which: keyof Lows): Solved => {
    if (lows[which].blocks.size > 0) lows[which] = { solved: settled(lows[which]), blocks: new Map() }
    return lows[which].solved
  }
  const grown: Fit = {
    ...fit,
    get low() {
      return settle('low')
    },
    get ratio() {
      return settle('ratio')
    },
  }
  pendings.set(grown, lows)
  return grown
}

/** A shared figure or class that the fit has no number for. */
class Unmet extends Error {}

/** The title's new block, if it has runs for this problem. */
function rebuilt(
  data: Fit['data'],
  catalog: Fit['catalog'],
  { shared, classes, priors, form, blocks }: Problem,
  key: string,
  cells: readonly Cell[],
  reads: Reads,
  entries: ReturnType<typeof entriesOnce>,
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
  if (!blocks.some((known) => known.key === key)) throw new Unmet(key)
  const age = ageVariance(priors, data.at, data.policy.runWindowDays)
  return blockOf(key, own, catalog, form, reads, age, numberIn(shared.keys), numberIn(classes.keys), entries)
}

/** Puts a title's new block in the place of its old one and takes two steps there. */
function withBlock(solved: Solved, key: string, block: Block): Solved {
  const { problem, scales } = solved
  const b = problem.blocks.findIndex((known) => known.key === key)
  const old = problem.blocks[b] as Block
  const before = solved.state.blocks[b] as BlockState
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
  const prior = sharedPrecision(next, scales)
  const none = new Float64Array(prior.length)
  const lower = solved.lower ?? sharedFactor(problem, scales, solved.sums)
  const sums: SharedSums = {
    curvature: solved.sums.curvature.slice(),
    gradient: solved.sums.gradient.slice(),
  }
  addShare(sums, old, before, x, -1)
  let own = before
  let whole: Float64Array = none
  let far = false
  for (let step = 0; step < STEPS; step++) {
    own = atBlock(next, scales, b, x, z)
    const all = { curvature: sums.curvature.slice(), gradient: sums.gradient.slice() }
    addShare(all, block, own, x, 1)
    const { x: dx, steps } = solveNear(
      { triangle: all.curvature, diagonal: prior },
      sharedGradient(next, scales, all.gradient, x),
      lower,
    )
    far ||= steps > FAR_STEPS
    z = plus(z, blockStep(block, own, dx))
    // What the others' gradient becomes when the shared figures move: g - S dx.
    const moved = times({ triangle: sums.curvature, diagonal: none }, dx)
    moved.forEach((by, i) => {
      sums.gradient[i] = (sums.gradient[i] as number) - by
    })
    x = plus(x, dx)
    whole = plus(whole, dx)
  }
  const blocks = solved.state.blocks.map((state, i): BlockState => {
    const of = next.blocks[i]
    return i === b || of === undefined
      ? state
      : { ...state, z: plus(state.z, blockStep(of, state, whole, false)) }
  })
  own = atBlock(next, scales, b, x, z)
  addShare(sums, block, own, x, 1)
  return {
    ...solved,
    problem: next,
    state: { x, blocks: blocks.map((state, i) => (i === b ? own : state)) },
    sums,
    // A factor that has become too old is made anew when the next run comes.
    lower: far ? undefined : lower,
  }
}
const STEPS = 2
const FAR_STEPS = 12

/** In a small shop one run moves everything: all titles take steps of their own, which costs as little there. */
const FEW_ROWS = 400
const FEW_STEPS = { steps: 4, fall: 0.01 }
const rowsOf = ({ blocks }: Problem): number => blocks.reduce((sum, { y }) => sum + y.length, 0)

function plus(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, i) => value + (b[i] as number))
}
