import type { LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'

/** A little more of each limit that is room, rating, rate, slots, lanes or plugs. */
export const MORE: { [K in LimitKey]?: (value: LimitValues[K]) => LimitValues[K] } = {
  processorPowerW: (w) => w + 1,
  memorySlots: (n) => n + 2,
  memoryMaxGB: (gb) => gb * 2,
  memoryListedMaxGB: (gb) => gb * 2,
  memoryPerSlotMaxGB: (gb) => gb + 16,
  controllerRateMts: (mts) => mts + 534,
  boardRateMts: (mts) => mts + 534,
  slotPcieGen: (gen) => gen + 1,
  slotLanes: (lanes) => (lanes < 16 ? lanes * 2 : lanes),
  slotLanesShared: (lanes) => (lanes < 16 ? lanes * 2 : lanes),
  processorPcieGen: (gen) => gen + 1,
  processorPcieLanes: (lanes) => (lanes < 16 ? lanes * 2 : lanes),
  cardRoomMm: (mm) => mm + 1,
  cardSlots: (n) => n + 1,
  coolerRoomMm: (mm) => mm + 1,
  processorMaxC: (c) => c + 1,
  supplyRatedW: (w) => w + 100,
  supply12VW: (w) => w + 100,
  supplyPlugs: (p) => ({ pin6: p.pin6, pin8: p.pin8 + 1, pin16: p.pin16 + 1 }),
  processorPlug: () => '8-pin',
  supplyDesignVersion: () => 'ATX 3.1',
  supplyYear: (year) => year + 6,
  pin16W: (w) => w + 150,
  cardCables: (n) => n + 1,
  supplyRoomMm: (mm) => mm + 1,
  supplyAndCardMm: (mm) => mm + 1,
  cardRoomFreeMm: (mm) => mm + 1,
  sataPorts: (n) => n + 1,
  sataPlugs: (n) => n + 1,
  bays25: (n) => n + 1,
  bays35: (n) => n + 1,
  cardBracket: () => 'full height',
  largeBar: () => 'yes',
  sharedM2Used: () => 'no',
  systemBits: () => 64,
}

export const MORE_KEYS = Object.keys(MORE) as LimitKey[]

/**
 * Where one finding may get worse with more. A board that feeds more lets a processor draw more than a small plug
 * carries. A supply that gets its first 16-pin plug has a print to judge; before, power.plugs asked for another supply.
 */
export const isMoreDrawn = (key: LimitKey, rule: string): boolean =>
  (key === 'processorPowerW' && rule === 'processor.plug') ||
  (key === 'supplyPlugs' && rule === 'power.plug16')

export const raise = (key: LimitKey, value: LimitValues[LimitKey]): LimitValues[LimitKey] => {
  const more = MORE[key] as ((value: LimitValues[LimitKey]) => LimitValues[LimitKey]) | undefined
  return more?.(value) ?? value
}
