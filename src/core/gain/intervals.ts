import type { LogGain } from './gain.ts'
import { FOUR_OF_FIVE_SD } from './noise.ts'

/** How many of a hundred results an interval holds. */
export type Coverage = 50 | 80 | 90

/** Half widths in standard deviations: more in the middle and heavier tails than normal, calibrated on simulated shops. */
export const HALF_WIDTH_SD: Readonly<Record<Coverage, number>> = { 50: 0.55, 80: FOUR_OF_FIVE_SD, 90: 1.75 }

export type Interval = {
  readonly pct: number
  readonly pctLow: number
  readonly pctHigh: number
  readonly logLow: number
  readonly logHigh: number
}

/** Interval of a gain that holds so many of a hundred results; percent is `100 (exp(g) - 1)`, not rounded. */
export function intervalOf({ logGain, sd }: LogGain, coverage: Coverage): Interval {
  const half = HALF_WIDTH_SD[coverage] * sd
  return {
    pct: percent(logGain),
    pctLow: percent(logGain - half),
    pctHigh: percent(logGain + half),
    logLow: logGain - half,
    logHigh: logGain + half,
  }
}

const percent = (log: number): number => 100 * Math.expm1(log)
