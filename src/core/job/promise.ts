import type { TitleGain } from '../gain/gain.ts'
import { halfWith } from '../gain/reliability/reliability.ts'
import type { Run } from '../gain/run.ts'
import { isPromised } from '../gain/useful.ts'
import type { Wanted } from '../question.ts'

/** What was promised in one title: average frame rate before and after, with the interval that holds four of five. */
export type Promised = {
  readonly titleId: string
  readonly settingId: string
  readonly beforeFps: number
  readonly afterFps: number
  readonly afterFpsLow: number
  readonly afterFpsHigh: number
  readonly low1Fps?: number | undefined
  /** By what the interval had been multiplied for earlier promises; absent = 1. */
  readonly widthFactor?: number | undefined
}

/** What became of it. `missed, better` is a miss too: the number was wrong. */
export const OUTCOMES = ['kept', 'missed, better', 'missed, worse', 'not measured'] as const
export type Outcome = (typeof OUTCOMES)[number]

export type Kept = {
  readonly promised: Promised
  readonly outcome: Outcome
  /** Geometric mean of the runs. */
  readonly measuredFps?: number | undefined
  /** The band it had to fall into, with the scatter of the new runs themselves. */
  readonly leastFps: number
  readonly mostFps: number
  readonly runIds: readonly string[]
}

/**
 * The titles of an option that have a number that counts: only these are promised, measured or estimated, with the
 * interval that was told. Where repeats disagree, one of the runs is spoilt, and the title is run again before anything
 * is promised in it.
 *
 * @param gains one a wanted title, in the same order
 * @param widthFactor by what intervals were multiplied in that answer
 */
export const promisedBy = (
  gains: readonly TitleGain[],
  wanted: readonly Wanted[],
  widthFactor = 1,
): Promised[] =>
  gains.flatMap((gain, i) => {
    const of = wanted[i]
    if (!isPromised(gain) || of?.titleId !== gain.titleId) return []
    const { before, after, afterFpsLow, afterFpsHigh } = gain
    return [
      {
        ...{ titleId: gain.titleId, settingId: of.settingId, afterFpsLow, afterFpsHigh },
        ...{ beforeFps: before.averageFps, afterFps: after.averageFps },
        ...(after.low1Fps !== undefined && { low1Fps: after.low1Fps }),
        ...(widthFactor !== 1 && { widthFactor }),
      },
    ]
  })

/**
 * Compares a promise with the runs made on the machine after the work: geometric mean of their averages against the
 * promised interval, widened by the scatter of that mean: `sqrt(h^2 + (1.2 x 0.02)^2 / n)` in log for a half width h, as
 * independent errors add up. A promise stands for four of five, so one miss in five is what an honest shop has. The
 * upper end is held as well as the lower.
 *
 * @param runs of this machine since the work; those of other titles and settings are left out
 */
export function heldAgainst(promised: Promised, runs: readonly Run[]): Kept {
  const of = runs.filter((r) => r.titleId === promised.titleId && r.settingId === promised.settingId)
  const n = of.length
  const { afterFps, afterFpsLow, afterFpsHigh } = promised
  const widened = (half: number): number => (n === 0 ? half : halfWith(half, n))
  const leastFps = afterFps / Math.exp(widened(Math.log(afterFps / afterFpsLow)))
  const mostFps = afterFps * Math.exp(widened(Math.log(afterFpsHigh / afterFps)))
  const runIds = of.map(({ id }) => id)
  if (n === 0) return { promised, outcome: 'not measured', leastFps, mostFps, runIds }
  const measuredFps = Math.exp(of.reduce((sum, r) => sum + Math.log(r.averageFps), 0) / n)
  const outcome: Outcome =
    measuredFps < leastFps ? 'missed, worse' : measuredFps > mostFps ? 'missed, better' : 'kept'
  return { promised, outcome, measuredFps, leastFps, mostFps, runIds }
}

/**
 * The runs a promise is held against: made on the machine since the parts went in, and before a part of it changed
 * again. Instants are ISO 8601 UTC.
 *
 * @param changes when parts of the machine came or went, in any order
 */
export function runsSince(
  { machineTag, fittedAt }: { readonly machineTag: string; readonly fittedAt?: string | undefined },
  changes: readonly string[],
  runs: readonly Run[],
): Run[] {
  if (fittedAt === undefined) return []
  const until = changes.filter((at) => at > fittedAt).sort()[0]
  return runs.filter(
    (run) => run.machineTag === machineTag && run.at >= fittedAt && (until === undefined || run.at < until),
  )
}

/** Over all titles: kept where every measured one is; a title that nobody measured keeps nothing. */
export function overall(kept: readonly Kept[]): Outcome {
  const of = (outcome: Outcome) => kept.some((k) => k.outcome === outcome)
  if (kept.length === 0 || kept.every((k) => k.outcome === 'not measured')) return 'not measured'
  if (of('missed, worse')) return 'missed, worse'
  if (of('not measured')) return 'not measured'
  return of('missed, better') ? 'missed, better' : 'kept'
}
