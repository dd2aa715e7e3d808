import { CONNECTORS } from '../../facts/connectors.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { besideSlotW } from './sockets.ts'

/**
 * The 16-pin plug has no one figure: it carries what is printed on it, 150, 300, 450 or 600 W, and tells the card so.
 *
 *   needW = card's board power - 75 W of the slot      fits where needW <= what is printed
 *
 * Further sockets of the card are not counted, which errs to the safe side. A supply without the plug is a matter of
 * power.plugs. While nobody read the print there is no answer, whatever the supply: the guide has four figures, and
 * which one a supply grants is read on the plug.
 */
export const powerPlug16 = rule({
  id: 'power.plug16',
  source: {
    kind: 'standard',
    text: 'Intel 336521 rev 2.1a, SENSE0 and SENSE1: the plug grants 150, 300, 450 or 600 W beside what the slot gives',
  },
  reads: ['pin16W'],
  mayRead: ['supplyPlugs'],
  thresholds: ['75 W from the slot (PCI Express CEM)'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { supplyPlugs }) =>
    (s.after.card?.plugs?.pin16 ?? 0) > 0 && supplyPlugs?.pin16 !== 0 && touches(s, 'card', 'supply'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ cardW: spec(after.card, 'card', 'boardPowerW') }),
  values: ({ cardW }, { pin16W }) => ({
    cardW,
    slotW: CONNECTORS.slot.sustainedW,
    needW: besideSlotW(cardW),
    pin16W,
  }),
  verdict: ({ needW, pin16W }) => (needW <= pin16W ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) => [
    'seat-connector',
    ...(verdict === 'fits after work' ? (['psu-closed', 'psu-cables', 'proprietary'] as const) : []),
  ],
})
