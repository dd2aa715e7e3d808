import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Card length against the free length from the slot bracket to the first thing in the way, in mm. Equal is enough:
 * the room as measured or published already ends at the obstacle.
 */
export const graphicsLength = rule({
  id: 'graphics.length',
  source: { kind: 'common practice', text: "card's data sheet against the free length in the case" },
  reads: ['cardRoomMm'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.card !== undefined && touches(s, 'card', 'case'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ cardMm: spec(after.card, 'card', 'lengthMm') }),
  values: ({ cardMm }, { cardRoomMm: roomMm }) => ({ cardMm, roomMm, overMm: Math.max(0, cardMm - roomMm) }),
  verdict: ({ cardMm, roomMm }) => (cardMm <= roomMm ? 'fits' : 'does not fit'),
  cautions: () => ['hot-parts', 'esd'],
})
