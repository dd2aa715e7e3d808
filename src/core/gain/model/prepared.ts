import { NEAR_CAP_SHARE } from '../capped.ts'
import { byText } from '../cellOf.ts'
import type { Fitted } from '../run.ts'
import type { Relative } from './alike.ts'
import type { Basis } from './basis.ts'
import type { Catalog } from './catalog.ts'
import {
  type EndIn,
  type EndSides,
  endIn,
  groupOf,
  type Makings,
  makingsOf,
  sideFinder,
  sidesOf,
} from './ends.ts'
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
  /** Machines of all runs that the end is blended with, its relatives' among them. */
  readonly heardOn: readonly (string | undefined)[]
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
  const bases = {
    average: inBasis(view.average, catalog),
    low: view.low && inBasis(view.low, catalog),
    ratio: view.ratio && inBasis(view.ratio, catalog),
  }
  const groups = relativesOf(view, catalog)
  return (fitted, key) => {
    const before = known.get(key)
    if (before) return before
    const makings = makingsOf(view, catalog, fitted)
    const fresh = prepare(view, bases, catalog, makings, groups.get(groupOf(makings)) ?? [])
    known.set(key, fresh)
    return fresh
  }
}

type InBasis = { readonly basis: Basis; readonly sides: (makings: Makings) => EndSides }
function inBasis(basis: Basis, catalog: Catalog): InBasis {
  const sideOf = sideFinder(basis, catalog)
  const known = new Map<string, EndSides>()
  const sides = (makings: Makings): EndSides => {
    const before = known.get(makings.key)
    if (before) return before
    const fresh = sidesOf(basis, sideOf, makings)
    known.set(makings.key, fresh)
    return fresh
  }
  return { basis, sides }
}

/** Measured cells of a view by processor and card; runs at a cap say nothing of others. */
function relativesOf(view: View, catalog: Catalog): ReadonlyMap<string, readonly Makings[]> {
  const groups = new Map<string, Makings[]>()
  for (const key of Object.keys(view.cells).sort(byText)) {
    const cell = view.cells[key]
    if (cell === undefined || cell.capped) continue
    const makings = makingsOf(view, catalog, cell.fitted)
    const list = groups.get(groupOf(makings))
    if (list) list.push(makings)
    else groups.set(groupOf(makings), [makings])
  }
  return groups
}

function prepare(
  view: View,
  bases: { average: InBasis; low: InBasis | undefined; ratio: InBasis | undefined },
  catalog: Catalog,
  makings: Makings,
  group: readonly Makings[],
): Prepared {
  const { capLog, average } = view
  const cell = makings.cell
  const atCap = cell?.capped === true && capLog !== undefined && capLog >= cell.average.y - AT_CAP_LOG
  const usable = cell !== undefined && (!cell.capped || atCap) ? cell : undefined
  const endBy = (
    { basis, sides }: InBasis,
    which: 'average' | 'low' | 'ratio',
    cap?: number,
    held?: Heard,
  ): EndIn => {
    const relatives = group.flatMap((other): Relative[] => {
      const heard = other.cell?.[which]
      return heard === undefined ? [] : [{ heard, sides: sides(other), isSelf: other.key === makings.key }]
    })
    return endIn(basis, sides(makings), makings, relatives, cap, held)
  }
  const end = endBy(bases.average, 'average', capLog, atCap ? cell.average : undefined)
  const off = usable === undefined || atCap ? 0 : distance(usable.average, average)
  const far = off > FAR_SD * Math.hypot(average.tau, average.sigma)
  const unsure = usable !== undefined && isUnsure(usable, average, timeVariance(end))
  return {
    makings,
    knows: knowsOf(average, catalog, makings),
    average: end,
    low: bases.low && endBy(bases.low, 'low'),
    ratio: bases.ratio && endBy(bases.ratio, 'ratio'),
    cell: usable,
    heardOn: (atCap ? [makings] : group).flatMap((of) => of.cell?.runs.map((run) => run.machineTag) ?? []),
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
