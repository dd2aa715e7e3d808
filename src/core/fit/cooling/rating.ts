import { rule } from '../rule.ts'
import { RATING_SOURCE, ratedVerdict, ratingSpecs } from './byRating.ts'
import { hasLoadPoint, isAsked, isSameWay } from './roads.ts'

/**
 * Cooling by the rating, where nobody measured the machine under load as it will be: what the processor may draw for
 * hours against what the cooler is rated to carry away.
 *
 *   fits  where  processorLimitW <= coolerRatedW
 *
 * More than the rating is `fits slower`, never a no.
 */
export const coolingRating = rule({
  id: 'cooling.rating',
  source: RATING_SOURCE,
  reads: [],
  mayRead: ['coolingLoad'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, limits) => isAsked(s) && !hasLoadPoint(s, limits),
  about: ({ after }) => after.cooler,
  specs: (s) => ratingSpecs(s, isSameWay(s), 'coolingLoad'),
  values: ({ processorLimitW, coolerRatedW }) => ({ processorLimitW, coolerRatedW }),
  verdict: ratedVerdict,
  cautions: () => ['hot-parts'],
})
