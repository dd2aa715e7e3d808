import { CONNECTORS } from '../../facts/connectors.ts'
import { LARGE_PLUG16_W, LARGE_SUPPLY_W } from '../../facts/supplyDesigns.ts'
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
 * power.plugs. While nobody read the print there is no answer, with one exception: the plug of a supply above 450 W
 * grants 300 W or more, so for a card of 300 W and less nobody is sent to read it.
 */
export const powerPlug16 = rule({
  id: 'power.plug16',
  source: {
    kind: 'standard',
    text: 'Intel 336521 rev 2.1a, SENSE0 and SENSE1: the plug grants 150, 300, 450 or 600 W beside what the slot gives',
  },
  reads: ['pin16W'],
  mayRead: ['supplyPlugs', 'supplyRatedW'],
  thresholds: [
    '75 W from the slot (PCI Express CEM)',
    '300 W at least over the 16-pin plug of a supply above 450 W (Intel 336521 rev 2.1a, SENSE0 and SENSE1)',
  ],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { pin16W, supplyPlugs, supplyRatedW }) => {
    const { card } = s.after
    const isPlugged = (card?.plugs?.pin16 ?? 0) > 0 && supplyPlugs?.pin16 !== 0
    if (!isPlugged || !touches(s, 'card', 'supply')) return false
    const isSure = (card?.boardPowerW ?? Number.NaN) <= LARGE_PLUG16_W.leastW
    return pin16W !== undefined || !isSure || !((supplyRatedW ?? 0) > LARGE_SUPPLY_W)
  },
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
