import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/** Cooler height against the room between processor and side panel, in mm. Equal is enough. */
export const coolingHeight = rule({
  id: 'cooling.height',
  source: { kind: 'common practice', text: "cooler's data sheet against the room above the processor" },
  reads: ['coolerRoomMm'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.cooler !== undefined && touches(s, 'cooler', 'case'),
  about: ({ after }) => after.cooler,
  specs: ({ after }) => ({ coolerMm: spec(after.cooler, 'cooler', 'heightMm') }),
  values: ({ coolerMm }, { coolerRoomMm: roomMm }) => ({
    coolerMm,
    roomMm,
    overMm: Math.max(0, coolerMm - roomMm),
  }),
  verdict: ({ coolerMm, roomMm }) => (coolerMm <= roomMm ? 'fits' : 'does not fit'),
  cautions: () => ['hot-parts'],
})
