import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Supply depth against the free depth in the case, in mm. Equal is enough. Judged only where somebody gave the depth:
 * the usual 140 to 160 mm go into every case that takes the form, and no one asks.
 */
export const caseSupplyDepth = rule({
  id: 'case.supplyDepth',
  source: {
    kind: 'standard',
    text: 'Intel 336521, PS/2 outline 150 x 86 x 140 mm; longer units are common practice',
  },
  reads: [],
  mayRead: ['supplyRoomMm'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { supplyRoomMm }) =>
    s.after.supply !== undefined && touches(s, 'supply', 'case') && supplyRoomMm !== undefined,
  about: ({ after }) => after.supply,
  specs: ({ after }) => ({ supplyMm: spec(after.supply, 'supply', 'lengthMm') }),
  values: ({ supplyMm }, { supplyRoomMm: roomMm }) => ({
    supplyMm,
    roomMm,
    overMm: roomMm === undefined ? undefined : Math.max(0, supplyMm - roomMm),
  }),
  verdict: ({ supplyMm, roomMm }) => (supplyMm <= roomMm ? 'fits' : 'does not fit'),
})
