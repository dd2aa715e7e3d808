import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * A new supply comes with its own cables, and those of the old one go with it: the plugs at the supply's end are no
 * standard, so a cable of another model may fit and burn what it feeds. The rule refuses nothing. It stands for every
 * change that brings a supply, also as a companion and whatever the other rules know, so that the caution is never lost.
 */
export const powerNewSupply = rule({
  id: 'power.newSupply',
  source: {
    kind: 'common practice',
    text: 'modular cables belong to one supply model: the plugs at the supply follow no standard',
  },
  reads: [],
  verdicts: ['fits'],
  applies: (s) => s.after.supply !== undefined && touches(s, 'supply'),
  about: ({ after }) => after.supply,
  specs: () => ({}),
  values: () => ({}),
  verdict: () => 'fits',
  cautions: () => ['psu-cables', 'psu-closed'],
})
