import type { Build } from '../../src/core/build.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { GraphicsCard, MemoryKit, Part, Processor } from '../../src/core/part.ts'
import { card, kit, processor } from '../core/fit/bench.ts'

type Ask = {
  readonly add?: readonly Part[]
  readonly out?: readonly string[]
  readonly work?: readonly string[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly makesRoom?: true
  readonly had?: Partial<Build>
}

const newer: Processor = {
  ...processor,
  id: 'CPU-NEW',
  name: 'New processor',
  generation: '11th (Rocket Lake)',
}
const strong: Processor = { ...newer, limitPowerW: 250 }
const newCard: GraphicsCard = { ...card, id: 'CARD-NEW', name: 'New card' }
const narrow: GraphicsCard = { ...newCard, pcieGen: 4, pcieLanes: 8 }
const newKit: MemoryKit = { ...kit, id: 'MEM-NEW', name: 'New kit' }
const fast: MemoryKit = { ...newKit, rateMts: 3200 }
const open = { memoryOverclock: 'yes', boardRateMts: 3600 } as const
const instead = { out: ['MEM-OLD'] } as const

/** The owner's sentences of the rules for memory, graphics and the processor's plug, as people read them. */
export const FIT_SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  [
    'processor.update',
    'fits',
    { add: [newer], work: ['firmware update'] },
    "Your board's firmware runs it already: it needs 1.20, and your board has 1.60.",
  ],
  [
    'processor.update',
    'fits after work',
    { add: [newer], work: ['firmware update'], not: ['firmware'] },
    'It needs firmware 1.20 or newer, and the update comes first in this job.',
  ],
  [
    'processor.plug',
    'fits',
    { add: [strong], at: { processorPowerW: 300 } },
    "Your supply's 8-pin processor plug feeds it: it takes 250 W, and the plug carries 384 W.",
  ],
  [
    'processor.plug',
    'fits after work',
    { add: [strong], at: { processorPowerW: 300, processorPlug: '4-pin' } },
    "It takes 250 W, and your supply's 4-pin processor plug carries 192 W.",
  ],
  [
    'memory.slots',
    'fits after work',
    { add: [newKit], ...instead, at: { memorySlots: 2 }, makesRoom: true },
    'All 2 slots are needed, so the old modules come out.',
  ],
  ['memory.perSlot', 'fits', { add: [newKit] }, 'Your board lists modules of 32 GB, and these have 8 GB.'],
  [
    'memory.mixing',
    'fits',
    { out: ['MEM-THIRD'], had: { memory: [kit, newKit, { ...kit, id: 'MEM-THIRD' }] } },
    'These modules run together in your board today.',
  ],
  [
    'memory.rate',
    'fits',
    { add: [fast], ...instead, at: open },
    'The memory may run at its rated 3200 MT/s; sure are 2666 MT/s.',
  ],
  [
    'memory.rate',
    'fits slower',
    { add: [fast], ...instead, at: { ...open, boardRateMts: 2933 } },
    'The memory may run at 2933 MT/s, sure are 2666 MT/s; it is rated 3200 MT/s.',
  ],
  [
    'memory.profile',
    'fits',
    { add: [fast], ...instead, at: open },
    "It can run at 3200 MT/s, above your processor's rated 2666 MT/s: most do, but it is not guaranteed.",
  ],
  ['memory.flex', 'fits', { add: [newKit] }, 'All 32 GB use both channels.'],
  [
    'memory.flex',
    'fits slower',
    { add: [{ ...newKit, modules: 3 }], ...instead },
    'Only 16 GB of 24 GB use both channels.',
  ],
  [
    'memory.system',
    'fits',
    { add: [{ ...newKit, modules: 1, moduleGB: 4 }], ...instead, at: { systemBits: 32 } },
    'Your system is a 32-bit one and uses up to 4 GB, which is enough for 4 GB.',
  ],
  [
    'memory.system',
    'fits after work',
    { add: [newKit], at: { systemBits: 32 } },
    'Your system is a 32-bit one and can use only 4 GB.',
  ],
  [
    'graphics.narrow',
    'fits',
    { add: [{ ...narrow, pcieGen: 3 }] },
    'This card has only 8 lanes, and your slot gives them all it can use.',
  ],
  [
    'graphics.narrow',
    'fits slower',
    { add: [narrow] },
    'This card has only 8 lanes, and in your older slot that leaves 7.9 GB/s.',
  ],
  [
    'graphics.sharing',
    'fits',
    { add: [newCard], at: { slotLanesShared: 8 } },
    'The slot that takes lanes from the card is empty, so the card keeps all of them.',
  ],
  [
    'graphics.sharing',
    'fits slower',
    { add: [newCard], at: { slotLanesShared: 8, sharedM2Used: 'yes' } },
    'A drive takes lanes from the card: 8 of 16 are left.',
  ],
  [
    'graphics.largeBar',
    'fits',
    { add: [{ ...newCard, wantsLargeBar: true }] },
    'Your board gives the card the large window into its memory that its maker asks for.',
  ],
  [
    'graphics.largeBar',
    'fits slower',
    { add: [{ ...newCard, wantsLargeBar: true }], at: { largeBar: 'no' } },
    'It works; its maker asks for a large window into its memory, which your board does not give.',
  ],
  [
    'graphics.thickness',
    'fits',
    { add: [{ ...newCard, thicknessMm: 50 }] },
    'It takes the room of 3 slots, and your case has 4.',
  ],
  [
    'graphics.thickness',
    'does not fit',
    { add: [{ ...newCard, thicknessMm: 50 }], at: { cardSlots: 2 } },
    'It takes the room of 3 slots, and your case has 2.',
  ],
  ['graphics.height', 'fits', { add: [newCard] }, 'It is 120 mm high, and your case takes cards of 120 mm.'],
  [
    'graphics.height',
    'does not fit',
    { add: [newCard], at: { cardBracket: 'low profile' } },
    'Your case takes low cards only: 79.2 mm; this one is 120 mm high.',
  ],
  [
    'graphics.outputs',
    'fits',
    { add: [{ ...newCard, videoSockets: ['HDMI', 'DisplayPort'] }] },
    'It has the HDMI connector that your screen needs.',
  ],
  [
    'graphics.outputs',
    'fits after work',
    { add: [{ ...newCard, videoSockets: ['HDMI', 'DisplayPort'] }], at: { displaySocket: 'VGA' } },
    'Your screen needs VGA, and the card has HDMI, DisplayPort.',
  ],
]
