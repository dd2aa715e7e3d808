import { rule } from '../rule.ts'
import { touches } from '../situation.ts'

/**
 * A new supply on the plug of the board that stays. Boards that are sold alone take the 24-pin plug of the ATX standard, so the
 * rule is silent about them. A brand-name board may take another, or the same with its contacts in another order:
 * nobody may try. Adapters are not offered.
 */
export const officeSupplyPlug = rule({
  id: 'office.supplyPlug',
  source: {
    kind: 'common practice',
    text: 'repair handbooks: plugs and contacts of brand-name office machines differ; verify before the supply is changed',
  },
  reads: ['boardSupplyPlug'],
  mayRead: ['brandBoard'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { boardSupplyPlug, brandBoard }) =>
    s.after.supply !== undefined &&
    s.after.board !== undefined &&
    touches(s, 'supply') &&
    (boardSupplyPlug !== 'ATX 24-pin' || brandBoard === 'yes'),
  about: ({ after }) => after.supply,
  specs: () => ({}),
  values: (_, { boardSupplyPlug }) => ({ boardPlug: boardSupplyPlug, supplyPlug: 'ATX 24-pin' }),
  verdict: ({ boardPlug, supplyPlug }) => (boardPlug === supplyPlug ? 'fits' : 'does not fit'),
  cautions: () => ['proprietary', 'psu-closed', 'psu-cables', 'defer'],
})
