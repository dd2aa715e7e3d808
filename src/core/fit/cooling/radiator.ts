import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { placesFor } from './places.ts'

/**
 * Radiator of a water cooler: the case must list its size at some place. A list counts as complete. Whether the card
 * leaves it the room at the front is the matter of cooling.radiatorFront.
 */
export const coolingRadiator = rule({
  id: 'cooling.radiator',
  source: {
    kind: 'common practice',
    text: "case's data sheet: sizes of radiator by place (120 mm and 140 mm fans and their multiples)",
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.cooler?.radiatorMm !== undefined && touches(s, 'cooler', 'case'),
  about: ({ after }) => after.cooler,
  specs: (s) => ({ radiatorMm: spec(s.after.cooler, 'cooler', 'radiatorMm'), radiatorPlaces: placesFor(s) }),
  values: ({ radiatorMm, radiatorPlaces }) => ({ radiatorMm, radiatorPlaces }),
  verdict: ({ radiatorPlaces }) => (radiatorPlaces.length > 0 ? 'fits' : 'does not fit'),
  cautions: () => ['hot-parts'],
})
