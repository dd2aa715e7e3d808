import type { GraphicsCard, Plugs } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { socketsOf } from './sockets.ts'

/**
 * Power plugs: each socket of the card needs a plug of its kind from the supply.
 *
 * An 8-pin plug left over serves a 6-pin socket, because supplies make them as 6+2 (common practice). The reverse
 * never: a 6-pin plug is rated 75 W, the 8-pin socket 150 W. A 16-pin socket takes only a 16-pin plug; the shop uses
 * no adapters, also not those from 8-pin plugs. What a 16-pin plug grants: power.plug16. Plugs that share a cable:
 * power.cables; while nobody counted the cables, a card of two sockets or more brings the caution on them.
 */
export const powerPlugs = rule({
  id: 'power.plugs',
  source: {
    kind: 'standard',
    text: 'Intel 336521 (ATX 3.0), Tables 5-5 and 5-6: 6-pin 75 W, 8-pin 150 W; 6+2 plugs and no adapters: common practice',
  },
  reads: ['supplyPlugs'],
  mayRead: ['cardCables'],
  thresholds: ['75 W over a 6-pin plug, 150 W over an 8-pin plug (Intel 336521, Tables 5-5 and 5-6)'],
  verdicts: ['fits', 'fits after work'],
  // A card that is fed by the slot alone asks nothing of the supply's plugs, known or not.
  applies: (s) => s.after.card !== undefined && !isSlotFed(s.after.card) && touches(s, 'card', 'supply'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ needPlugs: spec(after.card, 'card', 'plugs') }),
  values: ({ needPlugs }, { supplyPlugs, cardCables }) => ({
    needPlugs,
    havePlugs: supplyPlugs,
    cardCables: cardCables ?? NOT_COUNTED,
  }),
  verdict: ({ needPlugs, havePlugs }) => (serves(havePlugs, needPlugs) ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: ({ needPlugs, cardCables }, verdict) => [
    ...(socketsOf(needPlugs) > 0 ? (['psu-cables'] as const) : []),
    ...(socketsOf(needPlugs) > 1 && cardCables === NOT_COUNTED ? (['one-cable'] as const) : []),
    ...(needPlugs.pin16 > 0 ? (['seat-connector'] as const) : []),
    ...(verdict === 'fits after work' ? (['psu-closed', 'proprietary'] as const) : []),
  ],
})

const NOT_COUNTED = 'not counted'

const isSlotFed = ({ plugs }: GraphicsCard): boolean => plugs !== undefined && socketsOf(plugs) === 0

const serves = (have: Plugs, need: Plugs): boolean =>
  need.pin16 <= have.pin16 && need.pin8 <= have.pin8 && need.pin6 <= have.pin6 + (have.pin8 - need.pin8)
