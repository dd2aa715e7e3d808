import { STANDARD_SLOT_W } from '../../limits/fromBrand.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Power from the slot. A card without plugs draws all of its board power there; one with plugs may draw up to 75 W of
 * it there. The slot of a board that is sold alone feeds those 75 W (PCI Express CEM), so the rule is silent about it;
 * some office machines clear their slot for less.
 *
 *   needSlotW = boardPowerW without plugs, else min(boardPowerW, 75)      in W
 */
export const officeSlotPower = rule({
  id: 'office.slotPower',
  source: {
    kind: 'standard',
    text: 'PCI Express CEM, slot power: 75 W for x16 graphics, 25 W for other cards',
  },
  reads: ['slotPowerW'],
  mayRead: ['brandBoard'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { slotPowerW, brandBoard }) =>
    s.after.card !== undefined &&
    s.after.board !== undefined &&
    touches(s, 'card', 'board') &&
    (brandBoard === 'yes' || slotPowerW === undefined || slotPowerW < STANDARD_SLOT_W),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({
    cardW: spec(after.card, 'card', 'boardPowerW'),
    needPlugs: spec(after.card, 'card', 'plugs'),
  }),
  values: ({ cardW, needPlugs }, { slotPowerW }) => {
    const hasPlugs = needPlugs.pin6 + needPlugs.pin8 + needPlugs.pin16 > 0
    return { needSlotW: hasPlugs ? Math.min(cardW, STANDARD_SLOT_W) : cardW, slotW: slotPowerW }
  },
  verdict: ({ needSlotW, slotW }) => (needSlotW <= slotW ? 'fits' : 'does not fit'),
  cautions: () => ['proprietary'],
})
