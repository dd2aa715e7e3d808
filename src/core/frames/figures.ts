import { type Histogram, histogramOf } from './histogram.ts'
import { orderStatistics } from './orderStatistics.ts'
import { type Stretch, thinned } from './plot.ts'
import { stutterCount } from './stutters.ts'
import { compensatedSum } from './sum.ts'

/** One in a hundred of fewer frames is too few to tell anything (common practice): no 1 % low is given. */
export const FRAMES_FOR_LOW1 = 1000
/** Likewise for one in a thousand. */
export const FRAMES_FOR_LOW01 = 10_000

/** Percentiles of frame times in ms, Hyndman-Fan type 7. p99 and p99_9 are as scarce as the lows they go with. */
export type Percentiles = {
  readonly p50: number
  readonly p95: number
  readonly p99?: number | undefined
  readonly p99_9?: number | undefined
}

/** What a log of frame times says. Times in ms, rates in FPS. */
export type FrameFigures = {
  readonly frames: number
  readonly seconds: number
  /** frames / seconds; not the mean of each frame's own rate. */
  readonly averageFps: number
  readonly shortestMs: number
  readonly longestMs: number
  readonly percentilesMs: Percentiles
  /** 1000 / 99th percentile of frame times; absent below 1000 frames. */
  readonly low1Fps?: number | undefined
  /** 1000 / mean of the slowest ceil(n / 100) frame times; absent below 1000 frames. */
  readonly low1MeanFps?: number | undefined
  /** 1000 / 99.9th percentile; absent below 10,000 frames. */
  readonly low01Fps?: number | undefined
  /** 1000 / mean of the slowest ceil(n / 1000); absent below 10,000 frames. */
  readonly low01MeanFps?: number | undefined
  /** By our own definition: see `STUTTER`. */
  readonly stutters: number
  readonly histogram: Histogram
  readonly plot: readonly Stretch[]
}

/** Figures of frames that come in one by one, in memory that does not grow with them. */
export type FrameStudy = {
  /** One frame's time in ms, above zero, in the order of the log. */
  readonly add: (ms: number) => void
  /** Ends a pass; true where the same frames must be handed in once more (see `orderStatistics`). */
  readonly endPass: () => boolean
  /** Once no further pass is needed; undefined where there was no frame. */
  readonly figures: () => FrameFigures | undefined
}

/** Rank of the p-quantile by Hyndman-Fan type 7, h = (n - 1) p; not a whole number in general. */
const positionOf = (p: number, count: number): number => (count - 1) * p

/** How many frames are the slowest 1/parts of them: the handbook's ceil(n / parts). */
const slowest = (count: number, parts: number): number => Math.ceil(count / parts)

const wantedRanks = (count: number): number[] => [
  0,
  count - 1,
  ...[0.5, 0.95, 0.99, 0.999].flatMap((p) => {
    const below = Math.floor(positionOf(p, count))
    return [below, Math.min(below + 1, count - 1)]
  }),
  count - slowest(count, 100),
  count - slowest(count, 1000),
]

export function studyFrames(keepAtMost?: number): FrameStudy {
  const order = orderStatistics(wantedRanks, keepAtMost)
  const timeMs = compensatedSum()
  const histogram = histogramOf()
  const plot = thinned()
  const stutter = stutterCount()
  let isFirstPass = true
  let stutters = 0

  /** Hyndman-Fan type 7: between the two values around h, in proportion. */
  const quantile = (p: number): number => {
    const count = order.count()
    const position = positionOf(p, count)
    const below = Math.floor(position)
    const low = order.at(below)
    return low + (position - below) * (order.at(Math.min(below + 1, count - 1)) - low)
  }
  const slowestMeanMs = (parts: number): number => {
    const count = slowest(order.count(), parts)
    return order.sumFrom(order.count() - count) / count
  }

  return {
    add: (ms) => {
      order.add(ms)
      if (!isFirstPass) return
      timeMs.add(ms)
      histogram.add(ms)
      plot.add(ms)
      stutter.add(ms)
    },
    endPass: () => {
      if (isFirstPass) stutters = stutter.end()
      isFirstPass = false
      return order.endPass()
    },
    figures: () => {
      const frames = order.count()
      if (frames === 0) return undefined
      const seconds = timeMs.total() / 1000
      const hasLow1 = frames >= FRAMES_FOR_LOW1
      const hasLow01 = frames >= FRAMES_FOR_LOW01
      const [p99, p99_9] = [quantile(0.99), quantile(0.999)]
      return {
        ...{ frames, seconds, averageFps: frames / seconds, stutters },
        shortestMs: order.at(0),
        longestMs: order.at(frames - 1),
        percentilesMs: {
          ...{ p50: quantile(0.5), p95: quantile(0.95) },
          ...(hasLow1 && { p99 }),
          ...(hasLow01 && { p99_9 }),
        },
        ...(hasLow1 && { low1Fps: 1000 / p99, low1MeanFps: 1000 / slowestMeanMs(100) }),
        ...(hasLow01 && { low01Fps: 1000 / p99_9, low01MeanFps: 1000 / slowestMeanMs(1000) }),
        histogram: histogram.bars(),
        plot: plot.stretches(),
      }
    },
  }
}
