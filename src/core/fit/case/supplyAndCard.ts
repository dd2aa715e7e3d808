import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Some small cases have supply and card in one line: then their lengths together, in mm, against the length of that
 * line. Equal is enough. Judged only where the case has such a line; there an unknown length is no answer.
 */
export const caseSupplyAndCard = rule({
  id: 'case.supplyAndCard',
  source: {
    kind: 'common practice',
    text: "case's data sheet: the length that supply and card share in small cases",
  },
  reads: [],
  mayRead: ['supplyAndCardMm'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { supplyAndCardMm }) =>
    supplyAndCardMm !== undefined && s.after.card !== undefined && touches(s, 'card', 'supply', 'case'),
  about: (s) => (touches(s, 'card') ? s.after.card : touches(s, 'supply') ? s.after.supply : s.after.case),
  specs: ({ after }) => ({
    supplyMm: spec(after.supply, 'supply', 'lengthMm'),
    cardMm: spec(after.card, 'card', 'lengthMm'),
  }),
  values: ({ supplyMm, cardMm }, { supplyAndCardMm: roomMm }) => ({
    supplyMm,
    cardMm,
    bothMm: supplyMm + cardMm,
    roomMm,
    overMm: roomMm === undefined ? undefined : Math.max(0, supplyMm + cardMm - roomMm),
  }),
  verdict: ({ bothMm, roomMm }) => (bothMm <= roomMm ? 'fits' : 'does not fit'),
})
