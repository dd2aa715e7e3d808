import { CONNECTORS } from '../../facts/connectors.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { besideSlotW, socketsOf } from './sockets.ts'

/**
 * Two plugs in a row on one cable: all of them together carry what one 8-pin plug is rated for. Judged only where
 * somebody counted the cables and they are fewer than the card's sockets; with a cable a socket no plug carries more
 * than its own socket is made for.
 *
 *   needW  = card's board power - 75 W of the slot      fits where needW <= 150 W x cables
 *
 * The plugs of a card that takes more than its own sockets are rated for is its maker's matter and not judged.
 */
export const powerCables = rule({
  id: 'power.cables',
  source: {
    kind: 'shop policy',
    text: 'one cable carries what one 8-pin plug is rated for (150 W, Intel 336521, Table 5-5), however many plugs it has',
  },
  reads: [],
  mayRead: ['cardCables'],
  thresholds: ['150 W a cable (Intel 336521, Table 5-5), 75 W from the slot (PCI Express CEM)'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { cardCables }) => {
    const sockets = s.after.card?.plugs === undefined ? 0 : socketsOf(s.after.card.plugs)
    return cardCables !== undefined && cardCables < sockets && touches(s, 'card', 'supply')
  },
  about: ({ after }) => after.card,
  specs: ({ after }) => ({
    cardW: spec(after.card, 'card', 'boardPowerW'),
    needPlugs: spec(after.card, 'card', 'plugs'),
  }),
  values: ({ cardW, needPlugs }, { cardCables }) => ({
    cardW,
    slotW: CONNECTORS.slot.sustainedW,
    needW: besideSlotW(cardW),
    sockets: socketsOf(needPlugs),
    cardCables,
    cablesW: cardCables === undefined ? undefined : cardCables * CONNECTORS.pin8.sustainedW,
  }),
  verdict: ({ needW, cablesW }) => (needW <= cablesW ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) =>
    verdict === 'fits after work' ? ['psu-closed', 'psu-cables', 'proprietary'] : [],
})
