import { NEAR_CAP_SHARE } from '../capped.ts'
import type { Fitted } from '../run.ts'
import type { Basis } from './basis.ts'
import type { Catalog } from './catalog.ts'
import { type EndIn, endIn, type Finder, finderOf, type Makings, makingsOf } from './ends.ts'
import { knowsOf } from './grade.ts'
import { firstShare } from './smax.ts'
import type { CellFacts, Heard, View } from './view.ts'

/** An end in all bases of a view, and what its own runs are good for. */
export type Prepared = {
  readonly makings: Makings
  /** Parts that have a run in whatever title, or a nominal figure. */
  readonly knows: { readonly processor: boolean; readonly card: boolean }
  readonly average: EndIn
  readonly low: EndIn | undefined
  readonly ratio: EndIn | undefined
  /** Runs of this very cell that tell its frame rate; `undefined`: nobody ran it, or only up to another cap. */
  readonly cell: CellFacts | undefined
  /** That cell ran at the very cap that is asked for. */
  readonly atCap: boolean
  /** Its runs do not fit: two disagree, or they lie far from everything else. */
  readonly flagged: boolean
  /** Two repeats disagree and nothing tells which is right. */
  readonly disagrees: boolean
}

/** A reading this far (in standard deviations of one run and its cell) from the model does not fit. */
const FAR_SD = 4
/** Of two repeats that disagree the faster counts, where the model believes it and tells them this far apart. */
const BELIEVED = 0.5
const TOLD_APART_SD = 3

/** Prepares ends of one view, each once. */
export function preparing(view: View, catalog: Catalog): (fitted: Fitted, key: string) => Prepared {
  const known = new Map<string, Prepared>()
  const find = {
    average: finderOf(view.average),
    low: view.low && finderOf(view.low),
    ratio: view.ratio && finderOf(view.ratio),
  }
  return (fitted, key) => {
    const before = known.get(key)
    if (before) return before
    const fresh = prepare(view, find, catalog, makingsOf(view, catalog, fitted))
    known.set(key, fresh)
    return fresh
  }
}

function prepare(
  view: View,
  find: { average: Finder; low: Finder | undefined; ratio: Finder | undefined },
  catalog: Catalog,
  makings: Makings,
): Prepared {
  const { capLog, average } = view
  const cell = makings.cell
  const atCap = cell?.capped === true && capLog !== undefined && capLog >= cell.average.y - AT_CAP_LOG
  const usable = cell !== undefined && (!cell.capped || atCap) ? cell : undefined
  const none = { capLog: undefined, atCap: false }
  const inBasis = (
    basis: Basis | undefined,
    finder: Finder | undefined,
    heard: Heard | undefined,
    cap: { capLog: number | undefined; atCap: boolean },
  ) => basis && finder && endIn(basis, finder, catalog, makings, heard, cap)
  const end = endIn(average, find.average, catalog, makings, usable?.average, { capLog, atCap })
  const off = usable === undefined || atCap ? 0 : distance(usable.average, average)
  const far = off > FAR_SD * Math.hypot(average.tau, average.sigma)
  const unsure = usable !== undefined && isUnsure(usable, average, timeVariance(end))
  return {
    makings,
    knows: knowsOf(average, catalog, makings),
    average: end,
    low: inBasis(view.low, find.low, cell?.low, none),
    ratio: inBasis(view.ratio, find.ratio, usable?.ratio, none),
    cell: usable,
    atCap,
    flagged: usable !== undefined && (usable.disagree || far),
    disagrees: usable?.disagree === true && unsure,
  }
}

/** As near as runs at a cap lie to it. */
const AT_CAP_LOG = -Math.log1p(-NEAR_CAP_SHARE) + 1e-9

/** Distance of a reading from the model, out of the weight the fit gave it: `w = 5 / (4 + r^2 / V)`. */
function distance({ weight, n, aged }: Heard, { tau, sigma }: Basis): number {
  const variance = tau * tau + (sigma * sigma) / n + aged
  return Math.sqrt(Math.max(0, 5 / Math.max(1e-9, weight) - 4) * variance)
}

/**
 * The model believes the reading that counts too little, or without it would know the cell too little, to say which of
 * two runs is right. Without a reading of precision W, a variance v is `v / (1 - v W)`.
 */
function isUnsure(
  { average: { weight, n, aged }, runs }: CellFacts,
  { tau, sigma }: Basis,
  variance: number,
): boolean {
  const reading = tau * tau + (sigma * sigma) / n + aged
  const without = variance / Math.max(1e-9, 1 - (variance * weight) / reading)
  const rates = runs.map(({ averageFps }) => averageFps)
  const apart = Math.log(Math.max(...rates) / Math.min(...rates))
  return weight < BELIEVED || apart < TOLD_APART_SD * Math.sqrt(without + reading)
}

/** Variance of log frame time along the slopes at the middle, its sharpness taken as known. */
function timeVariance({ a, b, logp, covariance }: EndIn): number {
  const inA = firstShare(a.mean, b.mean, Math.exp(logp.mean))
  const inB = 1 - inA
  return inA * inA * a.variance + inB * inB * b.variance + 2 * inA * inB * (covariance[1] as number)
}
