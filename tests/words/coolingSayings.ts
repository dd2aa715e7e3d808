import type { Build } from '../../src/core/build.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { Cooler, Part } from '../../src/core/part.ts'
import { board, cooler, kit, processor, tower } from '../core/fit/bench.ts'

type Ask = {
  readonly add: readonly Part[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly had?: Partial<Build>
}

const newCooler: Cooler = { ...cooler, id: 'COOL-NEW', name: 'New cooler' }
const newBoard = { ...board, id: 'BRD-NEW', name: 'New board', socket: 'LGA1700' }
const strong = (limitPowerW: number) => ({ ...processor, id: 'CPU-NEW', name: 'New processor', limitPowerW })
const low: Cooler = { ...cooler, memoryRoomMm: 35 }
const high = (heightMm: number) => ({ ...kit, id: 'MEM-NEW', name: 'New kit', heightMm })
const kit35 = { ...kit, heightMm: 35 }
const water: Cooler = { ...newCooler, heightMm: 55, radiatorMm: 240, radiatorThicknessMm: 27 }
const withPlaces = (...places: ('front' | 'top')[]) => ({
  ...{ ...tower, radiatorPlaces: places.map((place) => ({ place, sizeMm: 240 })) },
})
const inFront: Ask = { add: [water], had: { case: withPlaces('front') }, at: { cardRoomMm: 227 } }
const underHigh: Ask = { add: [high(44)], had: { cooler: low, memory: [kit35] }, at: { coolerRoomMm: 159 } }

/** What makes each rule speak whose limits can be missing. */
export const COOLING_ASKS: Readonly<Partial<Record<RuleId, Ask>>> = {
  'cooling.fanUp': underHigh,
  'cooling.radiatorFront': inFront,
}

/** The owner's sentences on holder, room, radiator and heat, as people read them. */
export const COOLING_SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  ['cooling.mount', 'fits', { add: [newCooler] }, "The cooler's holder fits LGA1200, your board's socket."],
  [
    'cooling.mount',
    'fits after work',
    { add: [newBoard], at: { socket: 'LGA1700' } },
    "Your cooler's holder is not made for LGA1700.",
  ],
  [
    'cooling.mount',
    'fits after work',
    { add: [{ ...newCooler, kitSockets: ['LGA1700'] }], at: { socket: 'LGA1700' } },
    "The cooler's holder needs its maker's own kit for LGA1700.",
  ],
  [
    'cooling.mount',
    'does not fit',
    { add: [newCooler], at: { socket: 'LGA1700' } },
    "This cooler's holder is not made for LGA1700, your board's socket.",
  ],
  [
    'cooling.height',
    'fits',
    { add: [newCooler] },
    'The cooler is 150 mm high, and your case has room for 160 mm.',
  ],
  [
    'cooling.height',
    'does not fit',
    { add: [newCooler], at: { coolerRoomMm: 140 } },
    'The cooler is 150 mm high, 10 mm too high for your case.',
  ],
  [
    'cooling.memoryRoom',
    'fits',
    { add: [{ ...low, id: 'COOL-NEW' }], had: { memory: [kit35] } },
    "The memory is 35 mm high and goes under the cooler's fan, which leaves 35 mm.",
  ],
  [
    'cooling.fanUp',
    'fits',
    { add: [high(44)], had: { cooler: low, memory: [{ ...kit, heightMm: 44 }] } },
    "The memory is 44 mm high, and the cooler's fan sits that high already.",
  ],
  [
    'cooling.fanUp',
    'fits after work',
    underHigh,
    "The memory is 9 mm higher than the room under the cooler's fan.",
  ],
  [
    'cooling.fanUp',
    'does not fit',
    { ...underHigh, at: { coolerRoomMm: 158 } },
    "The memory is too high for the cooler's fan, and your case lacks 1 mm to move it up.",
  ],
  [
    'cooling.radiator',
    'fits',
    { add: [water], had: { case: withPlaces('front', 'top') } },
    'Its 240 mm radiator has a place in your case: front, top.',
  ],
  [
    'cooling.radiator',
    'does not fit',
    { add: [water], had: { case: withPlaces() } },
    'Your case has no place for its 240 mm radiator.',
  ],
  [
    'cooling.radiatorFront',
    'fits',
    inFront,
    'With the radiator in front your case leaves the 200 mm card its room.',
  ],
  [
    'cooling.radiatorFront',
    'does not fit',
    { ...inFront, at: { cardRoomMm: 226 } },
    'The radiator goes only in front, and there the 200 mm card is 1 mm too long.',
  ],
  // (75 - 30) / 65 = 0.692 K/W; 30 + 0.692 x 93.8 = 94.9 and x 94 = 95.1, against 100 - 5.
  [
    'cooling.measured',
    'fits',
    { add: [strong(93)] },
    'Your cooler keeps it near 94.4 °C in a 30 °C room; it may reach 100 °C.',
  ],
  [
    'cooling.measured',
    'fits slower',
    { add: [strong(94)] },
    'In a 30 °C room it would get too hot at 94 W and slow itself down.',
  ],
  [
    'cooling.rating',
    'fits',
    { add: [strong(100)], not: ['coolingLoad'] },
    'Your cooler is made for 130 W, and the processor takes up to 100 W.',
  ],
  [
    'cooling.rating',
    'fits slower',
    { add: [strong(134)], not: ['coolingLoad'] },
    'It takes up to 134 W, and the cooler is made for 130 W.',
  ],
  [
    'cooling.noMaximum',
    'fits',
    { add: [strong(100)], not: ['processorMaxC'] },
    'Your cooler is made for 130 W, and the processor takes up to 100 W.',
  ],
  [
    'cooling.noMaximum',
    'fits slower',
    { add: [strong(134)], not: ['processorMaxC'] },
    'It takes up to 134 W, and the cooler is made for 130 W.',
  ],
]
