import type { GainModel } from '../../src/core/gain/gain.ts'
import { hardMinimum, twoSided } from '../bench/gainPredictor.ts'
import type { Ask } from './asks.ts'
import { additiveRidge } from './baselines/additiveRidge.ts'
import { nearestNeighbour } from './baselines/nearestNeighbour.ts'
import { splitIntervals } from './baselines/splitIntervals.ts'
import type { Shop } from './shop.ts'

/** All that a predictor may see. */
export type ShopData = Pick<Shop, 'runs' | 'parts' | 'titles' | 'settings' | 'policy' | 'at'>
export type Change = Pick<Ask, 'machineTag' | 'before' | 'after' | 'titleId' | 'settingId'>

/** Ends of an interval of the log gain. */
export type Ends = readonly [low: number, high: number]

export type Prediction = {
  /** Natural logarithm of average FPS after over before. */
  readonly logGain: number
  /** Average FPS before, so that a gain can be cut at the target. */
  readonly beforeFps: number
  readonly half: Ends
  readonly fourFifths: Ends
  readonly nineTenths: Ends
}

/** Answers a change, or refuses it (`undefined`). */
export type Answer = (change: Change) => Prediction | undefined

export type Predictor = {
  readonly name: string
  /** Learns from one shop. */
  readonly learn: (data: ShopData) => Answer
}

// Two-sided quantiles of the standard normal for 50, 80 and 90 % (NIST/SEMATECH e-Handbook, table 1.3.6.7.1).
const Z50 = 0.6745
const Z80 = 1.2816
const Z90 = 1.6449

/** Normal intervals around a point. */
export const normalIntervals = (
  logGain: number,
  sd: number,
): Pick<Prediction, 'half' | 'fourFifths' | 'nineTenths'> => ({
  half: [logGain - Z50 * sd, logGain + Z50 * sd],
  fourFifths: [logGain - Z80 * sd, logGain + Z80 * sd],
  nineTenths: [logGain - Z90 * sd, logGain + Z90 * sd],
})

/**
 * Any gain model of the program as a predictor. The model names an 80 % interval of the frame rate after the change;
 * the other two are that one, scaled on each side as a normal's would be.
 */
export const fromGainModel = (name: string, learn: (data: ShopData) => GainModel): Predictor => ({
  name,
  learn: (data) => {
    const model = learn(data)
    return (change) => {
      const gain = model.predict(change)
      if (gain.grade === 'no number') return undefined
      const { logGain } = gain
      const beforeFps = gain.before.averageFps
      const low = Math.min(logGain, Math.log(gain.afterFpsLow / beforeFps))
      const high = Math.max(logGain, Math.log(gain.afterFpsHigh / beforeFps))
      const scaled = (z: number): Ends => [
        logGain - (z / Z80) * (logGain - low),
        logGain + (z / Z80) * (high - logGain),
      ]
      return { logGain, beforeFps, half: scaled(Z50), fourFifths: [low, high], nineTenths: scaled(Z90) }
    }
  },
})

/** Says that nothing changes anything; what every other predictor has to beat. */
const noChange: Predictor = {
  name: 'no change',
  learn: (data) =>
    splitIntervals(data, (runs) => {
      const typical =
        runs.length === 0
          ? 60
          : Math.exp(runs.reduce((sum, r) => sum + Math.log(r.averageFps), 0) / runs.length)
      return () => ({ logGain: 0, beforeFps: typical })
    }),
}

/** Add a predictor here, and `npm run accuracy` reports it. */
export const PREDICTORS: readonly Predictor[] = [
  noChange,
  nearestNeighbour,
  additiveRidge,
  hardMinimum,
  twoSided,
]
