import type { Promised } from '../../job/promise.ts'
import { type Coverage, HALF_WIDTH_SD } from '../intervals.ts'
import { FOUR_OF_FIVE_SD, NOISE, TITLE_CORRELATION } from '../noise.ts'
import { countsAs, withinCorrelation } from './clusters.ts'
import { bandOf, isIn, type Range } from './share.ts'

/** A promise in one title that was measured after the work. */
export type MeasuredPromise = {
  readonly jobId: string
  readonly promised: Pick<Promised, 'titleId' | 'settingId' | 'afterFps' | 'afterFpsLow' | 'afterFpsHigh'>
  /** Geometric mean of the runs since, and how many they are. */
  readonly measuredFps: number
  readonly runs: number
  /** By what the interval had been multiplied when it was promised; 1 as the model gives it. */
  readonly factor: number
}

/**
 * How far the result lies from the promise, in half widths of its 80 % interval: within -1 to 1 it was kept, below 0 it
 * came out slower. The half width takes in what the new runs scatter: `sqrt(h^2 + (1.2 x 0.02)^2 / n)`, independent
 * errors adding up by their squares. A promise of no width at all gives what that scatter allows.
 */
export function offOf({ promised, measuredFps, runs }: MeasuredPromise): number {
  const { afterFps, afterFpsLow, afterFpsHigh } = promised
  const off = Math.log(measuredFps / afterFps)
  const side = Math.log(off < 0 ? afterFps / afterFpsLow : afterFpsHigh / afterFps)
  return off / halfWith(side, runs)
}

/** Half width of an 80 % interval with the scatter of n runs that are held against it. */
export const halfWith = (half: number, runs: number): number =>
  Math.hypot(half, (FOUR_OF_FIVE_SD * NOISE.oneRunSd) / Math.sqrt(runs))

export const COVERAGES: readonly Coverage[] = [50, 80, 90]

/** Half width of an interval over that of the 80 % one. */
const widthOf = (coverage: Coverage): number => HALF_WIDTH_SD[coverage] / FOUR_OF_FIVE_SD

/** One point of the picture: what was stated and how often it held. */
export type Level = {
  readonly coverage: Coverage
  readonly kept: number
  readonly share: number
  /** Where the share of an honest shop lies in nineteen of twenty cases. */
  readonly honest: Range
}

/**
 * What the kept promises say of the interval. `too narrow`: fewer kept than stated; `too wide`: more. `lean`: results lie
 * on one side of the middle more often than chance lets them.
 */
export const VERDICTS = ['too few', 'as stated', 'too narrow', 'too wide'] as const
export type ReliabilityVerdict = (typeof VERDICTS)[number]

export type Reliability = {
  readonly promises: number
  readonly jobs: number
  /** So many independent ones tell as much: promises of one job miss together, and so do those in one title. */
  readonly counts: number
  readonly levels: readonly Level[]
  readonly slower: number
  readonly faster: number
  /** Middle of `ln(measured / promised)`; 0 without promises. */
  readonly middle: number
  readonly verdict: ReliabilityVerdict
  readonly lean: 'slower' | 'faster' | undefined
}

/** Fewer independent promises than this say nothing. */
export const LEAST_TO_SAY = 20
/** Two tests are made, each at half of one in twenty: two-sided 97.5 % of the normal distribution. */
const Z_OF_TWO = 2.241402727604947

/** Counts promises at each stated share. The order does not matter. */
export function reliabilityOf(all: readonly MeasuredPromise[]): Reliability {
  const offs = all.map(offOf)
  const n = all.length
  const jobs = new Set(all.map(({ jobId }) => jobId)).size
  const counts = independentAmong(all)
  const levelOf = (coverage: Coverage): Level => {
    const kept = offs.filter((off) => Math.abs(off) <= widthOf(coverage)).length
    return { coverage, kept, share: n === 0 ? 0 : kept / n, honest: bandOf(coverage / 100, counts) }
  }
  const slower = offs.filter((off) => off < 0).length
  const faster = offs.filter((off) => off > 0).length
  const logs = all.map(({ promised, measuredFps }) => Math.log(measuredFps / promised.afterFps))
  const four = levelOf(80)
  const enough = counts >= LEAST_TO_SAY
  const isStraight = n === 0 || isIn((slower + (n - slower - faster) / 2) / n, bandOf(0.5, counts, Z_OF_TWO))
  return {
    ...{ promises: n, jobs, counts, levels: COVERAGES.map(levelOf), slower, faster },
    middle: n === 0 ? 0 : quantile(logs, 0.5),
    verdict: !enough
      ? 'too few'
      : isIn(four.share, bandOf(0.8, counts, Z_OF_TWO))
        ? 'as stated'
        : four.share < 0.8
          ? 'too narrow'
          : 'too wide',
    lean: !enough || isStraight ? undefined : slower > faster ? 'slower' : 'faster',
  }
}

/**
 * So many independent promises tell as much as these. How much those of one job correlate is known from simulated shops;
 * how much those in one title do they show themselves, because it hangs on what has changed in the titles since their runs.
 * Where all are in one title nothing shows it: then they speak of that title alone. Told as if made with no factor, so
 * that the count is the same with whatever width they are looked at.
 */
export function independentAmong(all: readonly MeasuredPromise[]): number {
  const byJob = valuesBy(all, ({ jobId }) => jobId)
  const byTitle = valuesBy(all, ({ promised }) => promised.titleId)
  const sizesOf = (classes: readonly (readonly number[])[]) => classes.map(({ length }) => length)
  return countsAs(all.length, [
    { sizes: sizesOf(byJob), correlation: TITLE_CORRELATION },
    { sizes: sizesOf(byTitle), correlation: withinCorrelation(byTitle) },
  ])
}

/** How far each result lies from its promise, in classes. */
function valuesBy(all: readonly MeasuredPromise[], keyOf: (one: MeasuredPromise) => string): number[][] {
  const classes = new Map<string, number[]>()
  for (const one of all) {
    const own = classes.get(keyOf(one)) ?? []
    classes.set(keyOf(one), own)
    own.push(offOf(withFactor(one, 1)))
  }
  return [...classes.values()]
}

/** Type 7 of Hyndman & Fan, American Statistician 50(4), 1996. `values` is not empty. */
export function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  const at = p * (sorted.length - 1)
  const low = sorted[Math.floor(at)] as number
  return low + (at - Math.floor(at)) * ((sorted[Math.ceil(at)] as number) - low)
}

/** From so many independent promises on, the width of intervals is fitted to them. */
export const LEAST_TO_FIT = 40
/** As good as so many promises that were as stated: what is seen counts against them. */
const SHRINK = 40
/** No factor is narrower or wider: beyond it something else is wrong than the width. */
export const WIDTH_RANGE = { least: 0.5, most: 2 } as const

/** What the promises propose for the width of intervals. */
export type FactorProposal = {
  /** What all intervals would be multiplied by, of what the model gives. */
  readonly factor: number
  /** The same, before it is drawn toward 1. */
  readonly seen: number
  /** The promises as they would have been kept with the factor that is in force now. */
  readonly before: Reliability
  /** The same with this one. */
  readonly after: Reliability
}

/**
 * The factor under which the promises would have been kept as often as stated, drawn toward 1 as if 40 more promises had
 * been as stated: `seen^(n / (n + 40))`. Promises that were made with another factor count as if made with none. `undefined` below 40
 * independent promises, and where they were kept as stated with the factor in force: chance is not fitted to.
 */
export function proposedFactor(all: readonly MeasuredPromise[], inForce: number): FactorProposal | undefined {
  const counts = independentAmong(all)
  if (counts < LEAST_TO_FIT) return undefined
  const before = reliabilityOf(all.map((one) => withFactor(one, inForce)))
  if (before.verdict === 'as stated') return undefined
  const log = Math.log(fittingFactor(all))
  const drawn = Math.exp((log * counts) / (counts + SHRINK))
  const factor = Math.round(100 * Math.min(WIDTH_RANGE.most, Math.max(WIDTH_RANGE.least, drawn))) / 100
  if (Math.abs(factor - inForce) < 0.005) return undefined
  return {
    factor,
    seen: Math.exp(log),
    before,
    after: reliabilityOf(all.map((one) => withFactor(one, factor))),
  }
}

/**
 * Where the seen quantiles of |off| at the three stated shares lie, in the geometric mean, at what was stated. They fall
 * as intervals widen, so halving finds it; not by a quotient, because the scatter of runs does not widen with them.
 */
function fittingFactor(all: readonly MeasuredPromise[]): number {
  const isTooNarrow = (factor: number): boolean => {
    const offs = all.map((one) => Math.abs(offOf(withFactor(one, factor))))
    const logs = COVERAGES.map((coverage) =>
      Math.log(Math.max(1e-9, quantile(offs, coverage / 100)) / widthOf(coverage)),
    )
    return logs.reduce((sum, l) => sum + l, 0) > 0
  }
  let [low, high] = [Math.log(SEARCHED.least), Math.log(SEARCHED.most)]
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2
    if (isTooNarrow(Math.exp(middle))) low = middle
    else high = middle
  }
  return Math.exp((low + high) / 2)
}
const SEARCHED = { least: 0.1, most: 10 } as const
const HALVINGS = 30

/** The promise as it would have been made with another factor. */
export function withFactor(one: MeasuredPromise, factor: number): MeasuredPromise {
  const { afterFps, afterFpsLow, afterFpsHigh } = one.promised
  const by = factor / one.factor
  return {
    ...one,
    factor,
    promised: {
      ...one.promised,
      afterFpsLow: afterFps * (afterFpsLow / afterFps) ** by,
      afterFpsHigh: afterFps * (afterFpsHigh / afterFps) ** by,
    },
  }
}

/** Promises by what they are about, each group's own reliability, the largest group first. */
export function groupedBy<P extends MeasuredPromise>(
  all: readonly P[],
  keysOf: (one: P) => readonly string[],
): readonly (readonly [string, Reliability])[] {
  const groups = new Map<string, P[]>()
  for (const one of all)
    for (const key of new Set(keysOf(one))) groups.set(key, [...(groups.get(key) ?? []), one])
  return [...groups]
    .sort((a, b) => b[1].length - a[1].length || (a[0] < b[0] ? -1 : 1))
    .map(([key, own]) => [key, reliabilityOf(own)] as const)
}
