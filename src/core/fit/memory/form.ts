import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Module form: desktop boards of the ATX family take DIMMs, never the short modules of laptops. The few small boards
 * that take SO-DIMMs are not in our table of boards.
 */
export const memoryForm = rule({
  id: 'memory.form',
  source: {
    kind: 'common practice',
    text: 'boards of ATX, microATX and Mini-ITX form take DIMMs; pins differ (JEDEC)',
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'form')) }),
  values: ({ kits }) => ({ kitForm: kits.find((form) => form !== 'DIMM') ?? kits[0], boardForm: 'DIMM' }),
  verdict: ({ kitForm, boardForm }) => (kitForm === boardForm ? 'fits' : 'does not fit'),
})
