import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { GraphicsCard, Part, Supply } from '../../src/core/part.ts'
import { card, supply } from '../core/fit/bench.ts'

type Ask = {
  readonly add: readonly Part[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
}

const large: GraphicsCard = { ...card, id: 'CARD-NEW', name: 'New card', boardPowerW: 350 }
const flat: GraphicsCard = { ...large, plugs: { pin6: 0, pin8: 0, pin16: 1 } }
const twin: GraphicsCard = { ...large, boardPowerW: 225, plugs: { pin6: 0, pin8: 2, pin16: 0 } }
const newSupply: Supply = { ...supply, id: 'PSU-NEW', name: 'New supply', lengthMm: 150 }
const withPlug = { supplyPlugs: { pin6: 0, pin8: 2, pin16: 1 } } as const

/** A card of 350 W with its 16-pin socket, on a supply with that plug. */
export const LARGE_CARD: Ask = { add: [flat], at: withPlug }

/** The owner's sentences on plugs, cables, short peaks and the new supply, as people read them. */
export const POWER_SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  [
    'power.plug16',
    'fits',
    LARGE_CARD,
    'It takes 275 W over its 16-pin plug, and your supply’s is made for 600 W.',
  ],
  [
    'power.plug16',
    'fits after work',
    { ...LARGE_CARD, at: { ...withPlug, pin16W: 150 } },
    'It takes 275 W over its 16-pin plug, and your supply’s is made for 150 W.',
  ],
  [
    'power.cables',
    'fits',
    { add: [twin], at: { cardCables: 1 } },
    'Its plugs share a cable: it takes 150 W over cables, and yours carry 150 W.',
  ],
  [
    'power.cables',
    'fits after work',
    { add: [{ ...twin, boardPowerW: 226 }], at: { cardCables: 1 } },
    'Its plugs would share a cable: it takes 151 W over cables, and yours carry 150 W.',
  ],
  // 3 x 350 + 212.8 (35 W class, Intel 336521, Table 2-1) + 50 = 1312.8 W; 660 W x 200 % = 1320 W.
  [
    'power.peaks',
    'fits',
    { ...LARGE_CARD, at: { ...withPlug, supplyRatedW: 660 } },
    'For a ten-thousandth of a second it may draw 1313 W; your supply is built to carry 1320 W that long.',
  ],
  [
    'power.peaks',
    'fits after work',
    LARGE_CARD,
    'For a ten-thousandth of a second it may draw 1313 W; your supply is built to carry only 1100 W that long.',
  ],
  [
    'power.newSupply',
    'fits',
    { add: [newSupply] },
    'The new supply comes with its own cables, and the old cables go.',
  ],
  [
    'case.supplyAndCard',
    'fits',
    { add: [newSupply] },
    'Supply and card are 350 mm long together, and your case has 600 mm for both.',
  ],
  [
    'case.supplyAndCard',
    'does not fit',
    { add: [newSupply], at: { supplyAndCardMm: 340 } },
    'Supply and card are 350 mm long together, 10 mm too long for your case.',
  ],
]
