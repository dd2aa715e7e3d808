import { intervalOf } from '../../src/core/gain/intervals.ts'
import { type Fit, fitModel, modelOf } from '../../src/core/gain/model/index.ts'
import type { Predictor, ShopData } from '../simulator/predictors.ts'

/** What the statistical model is fitted from, out of what a simulated shop shows. */
export function fitOf({ runs, parts, titles, settings, policy, at }: ShopData): Fit {
  return fitModel({ runs, parts, titles, settings, policy, at })
}

/** The statistical model with the intervals it names itself; "no number" is a refusal. */
export const twoSided: Predictor = {
  name: 'two-sided',
  learn: (data) => {
    const model = modelOf(fitOf(data))
    return (change) => {
      const gain = model.predict(change)
      if (gain.grade === 'no number') return undefined
      const ends = (coverage: 50 | 80 | 90) => {
        const { logLow, logHigh } = intervalOf(gain, coverage)
        return [logLow, logHigh] as const
      }
      return {
        logGain: gain.logGain,
        beforeFps: gain.before.averageFps,
        half: ends(50),
        fourFifths: ends(80),
        nineTenths: ends(90),
      }
    }
  },
}
