import { intervalOf } from '../../src/core/gain/intervals.ts'
import { fitWith } from '../../src/core/gain/model/fit.ts'
import { type Fit, fitModel, modelOf } from '../../src/core/gain/model/index.ts'
import { PRIORS, type Priors } from '../../src/core/gain/model/priors.ts'
import type { Predictor, ShopData } from '../simulator/predictors.ts'

/** What the statistical model is fitted from, out of what a simulated shop shows. */
export function fitOf({ runs, parts, titles, settings, policy, at }: ShopData): Fit {
  return fitModel({ runs, parts, titles, settings, policy, at })
}

/** A fit with the intervals it names itself; "no number" is a refusal. */
const byFit = (name: string, fitFrom: (data: ShopData) => Fit): Predictor => ({
  name,
  learn: (data) => {
    const model = modelOf(fitFrom(data))
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
})

/** The statistical model. */
export const twoSided = byFit('two-sided', fitOf)

/**
 * The same solver told that a frame takes exactly as long as its longer side: sharpness 60, where two equal sides cost
 * 1.2 % more than one, and no title learns another.
 */
const HARD: Priors = {
  ...PRIORS,
  kinds: { ...PRIORS.kinds, logp: { m: Math.log(60), ms: 1e-3, s0: 1e-3, nu0: 1e6 } },
}
export const hardMinimum = byFit('hard minimum', ({ runs, parts, titles, settings, policy, at }) =>
  fitWith({ runs, parts, titles, settings, policy, at }, HARD),
)
