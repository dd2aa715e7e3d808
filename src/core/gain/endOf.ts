import type { End } from './gain.ts'
import { NOISE, REPEATS_AGREE_LOG } from './noise.ts'
import type { Run } from './run.ts'

/** What of a run an end is made of. */
export type EndRun = Pick<Run, 'id' | 'at' | 'averageFps' | 'low1Fps' | 'machineTag'>

/** One end of a gain as its runs tell it. */
export type MeasuredEnd = {
  readonly end: End
  /** Variance of the end's log frame rate. */
  readonly variance: number
  /** Two repeats disagree by more than 15 %. */
  readonly disagrees: boolean
}

/**
 * Puts the repeats of one cell together, in the log of the frame time: one run is itself; two within 0.15 are
 * averaged; of two further apart the *lower frame time* counts (a spoilt run is nearly always a slow one: background
 * load, heat) and the end is marked; of three or more the median counts, which one spoilt run cannot move far.
 *
 * Variance: 0.02^2 / n for n runs that count, plus 0.015^2 unless every one of them was made on `machineTag`.
 * `runs` is not empty and sorted oldest first; throws on an empty list.
 */
export function endOf(runs: readonly EndRun[], machineTag: string): MeasuredEnd {
  const last = runs.at(-1)
  if (last === undefined) throw new RangeError('an end needs a run')
  const byRate = [...runs].sort((a, b) => a.averageFps - b.averageFps)
  const [slow, fast] = [byRate[0] ?? last, byRate.at(-1) ?? last]
  const disagrees = runs.length === 2 && Math.log(fast.averageFps / slow.averageFps) > REPEATS_AGREE_LOG
  const counting = disagrees ? [fast] : runs
  const averageFps = middleFps(counting.map((r) => r.averageFps))
  const lows = counting.flatMap(({ low1Fps }) => (low1Fps !== undefined && low1Fps > 0 ? [low1Fps] : []))
  const onThisMachine = counting.every((r) => r.machineTag === machineTag)
  return {
    end: {
      averageFps,
      // 99 of 100 frames beat the 1 % low, so a figure above the average is a mistake of putting repeats together.
      low1Fps: lows.length === 0 ? undefined : Math.min(averageFps, middleFps(lows)),
      runIds: runs.map((r) => r.id),
      at: last.at,
      onThisMachine,
    },
    variance: NOISE.oneRunSd ** 2 / counting.length + (onThisMachine ? 0 : NOISE.machineSd ** 2),
    disagrees,
  }
}

/** Middle of frame rates in the log: one: itself, untouched by rounding; two: geometric mean; more: median. */
function middleFps(rates: readonly number[]): number {
  const sorted = [...rates].sort((a, b) => a - b)
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half]
  if (upper === undefined) throw new RangeError('no frame rate given')
  const lower = sorted.length % 2 === 1 ? upper : (sorted[half - 1] ?? upper)
  return lower === upper ? upper : Math.exp((Math.log(lower) + Math.log(upper)) / 2)
}
