import { slotsOf } from '../../facts/cards.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Card thickness: the slots it covers against the slot covers of the case.
 *
 *   needSlots = ceil(thickness / 20.32 mm)
 *
 * What sits in the slots below is not on record.
 */
export const graphicsThickness = rule({
  id: 'graphics.thickness',
  source: { kind: 'standard', text: 'ATX Specification 2.x, expansion slot spacing' },
  reads: ['cardSlots'],
  thresholds: ['20.32 mm a slot (ATX Specification 2.x)'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.card !== undefined && touches(s, 'card', 'case'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ thickMm: spec(after.card, 'card', 'thicknessMm') }),
  values: ({ thickMm }, { cardSlots }) => ({ thickMm, needSlots: slotsOf(thickMm), haveSlots: cardSlots }),
  verdict: ({ needSlots, haveSlots }) => (needSlots <= haveSlots ? 'fits' : 'does not fit'),
})
