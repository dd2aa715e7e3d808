import { rule } from '../rule.ts'
import { isHigher, moduleSpecs, overhangs } from './modules.ts'

/**
 * Modules under a fan that overhangs them, in mm: the highest must be no higher than the free height under the fan.
 * Equal is enough. A higher one is the matter of cooling.fanUp. A cooler that overhangs nothing is not judged.
 */
export const coolingMemoryRoom = rule({
  id: 'cooling.memoryRoom',
  source: {
    kind: 'common practice',
    text: "free height in the cooler's data sheet against the module's (bare module 31.25 mm: JEDEC MO-309, MO-329)",
  },
  reads: [],
  verdicts: ['fits'],
  applies: (s) => overhangs(s) && !isHigher(s),
  about: ({ after }) => after.cooler,
  specs: moduleSpecs,
  values: ({ modulesMm, underFanMm }) => ({ moduleMm: Math.max(...modulesMm), underFanMm }),
  verdict: () => 'fits',
})
