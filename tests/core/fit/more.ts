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
  supplyRatedW: (w) => w + 100,
  supply12VW: (w) => w + 100,
  supplyPlugs: (p) => ({ pin6: p.pin6, pin8: p.pin8 + 1, pin16: p.pin16 + 1 }),
  processorPlug: () => '8-pin',
  cardBracket: () => 'full height',
  largeBar: () => 'yes',
  sharedM2Used: () => 'no',
  systemBits: () => 64,
}

export const MORE_KEYS = Object.keys(MORE) as LimitKey[]

/** A board that feeds more lets a processor draw more than a small plug carries: that one finding may get worse. */
export const isMoreDrawn = (key: LimitKey, rule: string): boolean =>
  key === 'processorPowerW' && rule === 'processor.plug'

export const raise = (key: LimitKey, value: LimitValues[LimitKey]): LimitValues[LimitKey] => {
  const more = MORE[key] as ((value: LimitValues[LimitKey]) => LimitValues[LimitKey]) | undefined
  return more?.(value) ?? value
}
