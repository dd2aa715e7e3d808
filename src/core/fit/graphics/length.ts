import { rule } from '../rule.ts'
import { type Situation, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Card length against the free length from the slot bracket to the first thing in the way, in mm. Equal is enough:
 * the room as measured or published already ends at the obstacle.
 *
 * Where the front fans are that obstacle and somebody measured the length without them, a longer card goes in once they
 * are moved. That needs fans on record, and nobody saying that none stands in front.
 */
export const graphicsLength = rule({
  id: 'graphics.length',
  source: { kind: 'common practice', text: "card's data sheet against the free length in the case" },
  reads: ['cardRoomMm'],
  mayRead: ['cardRoomFreeMm', 'frontFanFitted'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => s.after.card !== undefined && touches(s, 'card', 'case'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ cardMm: spec(after.card, 'card', 'lengthMm') }),
  values: ({ cardMm }, { cardRoomMm, cardRoomFreeMm, frontFanFitted }, s) => {
    const hasFan = frontFanFitted === 'yes' || (frontFanFitted === undefined && hasFans(s))
    const freeMm = hasFan && cardRoomFreeMm !== undefined ? Math.max(cardRoomMm, cardRoomFreeMm) : cardRoomMm
    return { cardMm, roomMm: cardRoomMm, freeMm, overMm: Math.max(0, cardMm - freeMm) }
  },
  verdict: ({ cardMm, roomMm, freeMm }) =>
    cardMm <= roomMm ? 'fits' : cardMm <= freeMm ? 'fits after work' : 'does not fit',
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'move front fan' }] : []),
  cautions: () => ['hot-parts', 'esd'],
})

const hasFans = ({ after }: Situation): boolean => after.fans.length > 0
