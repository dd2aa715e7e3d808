import { limitPower } from '../processor/limitPower.ts'
import { rule } from '../rule.ts'
import type { Situation } from '../situation.ts'
import { type Spec, spec } from '../spec.ts'
import { isAsked, isByMeasurement, isSameWay } from './roads.ts'

/**
 * Cooling by the rating, where the machine's own thermometer can't decide (cooling.measured): what the processor may
 * draw for hours against what the cooler is rated to carry away.
 *
 *   fits  where  processorLimitW <= coolerRatedW
 *
 * More than the rating is `fits slower`, never a no. Where the cooler stays and has no rating, a measurement would
 * tell as well, so it is asked for too.
 */
export const coolingRating = rule({
  id: 'cooling.rating',
  source: {
    kind: 'common practice',
    text: "processor's sustained limit (PL2 or PPT) against the cooler's own rating",
  },
  reads: [],
  mayRead: ['coolingLoad', 'processorMaxC'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, limits) => isAsked(s) && !isByMeasurement(s, limits),
  about: ({ after }) => after.cooler,
  specs: (s) => ({
    processorLimitW: limitPower(s.after.processor),
    measured: measurementInstead(s),
    coolerRatedW: spec(s.after.cooler, 'cooler', 'ratedW'),
  }),
  values: ({ processorLimitW, coolerRatedW }) => ({ processorLimitW, coolerRatedW }),
  verdict: ({ processorLimitW, coolerRatedW }) => (processorLimitW <= coolerRatedW ? 'fits' : 'fits slower'),
  cautions: () => ['hot-parts'],
})

/** Missing where it could take the place of a rating that nobody knows; else it is not asked for. */
function measurementInstead(s: Situation): readonly Spec<number>[] {
  const isUnrated = spec(s.after.cooler, 'cooler', 'ratedW').value === undefined
  return isUnrated && isSameWay(s) ? [{ value: undefined, missing: { limit: 'coolingLoad' } }] : []
}
