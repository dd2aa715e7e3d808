import { rule } from '../rule.ts'
import { RATING_SOURCE, ratedVerdict, ratingSpecs } from './byRating.ts'
import { hasLoadPoint, isAsked, isSameWay } from './roads.ts'

/**
 * Cooling by the rating although the machine was measured: nobody prints how hot this processor may get, so there is
 * nothing to hold the predicted temperature against. Compares as cooling.rating does.
 */
export const coolingNoMaximum = rule({
  id: 'cooling.noMaximum',
  source: RATING_SOURCE,
  reads: [],
  mayRead: ['coolingLoad', 'processorMaxC'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, limits) => isAsked(s) && hasLoadPoint(s, limits) && limits.processorMaxC === undefined,
  about: ({ after }) => after.cooler,
  specs: (s) => ratingSpecs(s, isSameWay(s), 'processorMaxC'),
  values: ({ processorLimitW, coolerRatedW }) => ({ processorLimitW, coolerRatedW }),
  verdict: ratedVerdict,
  cautions: () => ['hot-parts'],
})
