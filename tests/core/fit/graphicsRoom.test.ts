import { expect, test } from 'vitest'
import type { Fan } from '../../../src/core/part.ts'
import { card, limits, machine, processor, says, tower } from './bench.ts'

const next = { ...card, id: 'CARD-NEW', name: 'New card' }

// ATX Specification, expansion slot spacing: 20.32 mm. By hand: 40.64 is two slots, 60.96 three.
test.each([
  { mm: 40.63, slots: 2, need: 2, gives: 'fits' },
  { mm: 40.64, slots: 2, need: 2, gives: 'fits' },
  { mm: 40.65, slots: 2, need: 3, gives: 'does not fit' },
  { mm: 60.96, slots: 3, need: 3, gives: 'fits' },
  { mm: 60.97, slots: 3, need: 4, gives: 'does not fit' },
])('$mm mm in $slots slots: $gives', ({ mm, slots, need, gives }) => {
  const f = says('graphics.thickness', {
    add: [{ ...next, thicknessMm: mm }],
    limits: limits({ cardSlots: slots }),
  })
  expect(f).toMatchObject({ verdict: gives, values: { needSlots: need, haveSlots: slots } })
})

// PCI Express CEM: full-height bracket 120.02 mm, low profile 79.2 mm.
test.each([
  { bracket: 'full height', takes: 'full height', gives: 'fits' },
  { bracket: 'full height', takes: 'low profile', gives: 'does not fit' },
  { bracket: undefined, takes: 'low profile', gives: 'does not fit' },
  { bracket: 'low profile', takes: 'low profile', gives: 'fits' },
  { bracket: 'low profile', takes: 'full height', gives: 'fits' },
] as const)('a card of $bracket bracket where the case takes $takes: $gives', ({ bracket, takes, gives }) => {
  const f = says('graphics.height', { add: [{ ...next, bracket }], limits: limits({ cardBracket: takes }) })
  expect(f).toMatchObject({ verdict: gives })
})

test('nobody asks for the height of a case that is not said to be low', () => {
  expect(says('graphics.height', { add: [next], limits: limits({}, ['cardBracket']) })).toBeUndefined()
})

// PCI Express Base Specification: a link takes the lower generation; 0.9846 and 1.9692 GB/s a lane at gen 3 and 4.
test.each([
  { lanes: 8, gen: 4, slot: 3, gives: 'fits slower', is: 7.877 },
  { lanes: 8, gen: 3, slot: 3, gives: 'fits', is: 7.877 },
  { lanes: 4, gen: 4, slot: 4, gives: 'fits', is: 7.877 },
  { lanes: 4, gen: 4, slot: 3, gives: 'fits slower', is: 3.938 },
])('a card with $lanes lanes of gen $gen in gen $slot: $gives', ({ lanes, gen, slot, gives, is }) => {
  const add = [{ ...next, pcieLanes: lanes, pcieGen: gen }]
  const f = says('graphics.narrow', { add, limits: limits({ slotPcieGen: slot, processorPcieGen: 5 }) })
  expect(f).toMatchObject({ verdict: gives, values: { slotGen: slot, cardMemory: '6 GB' } })
  expect(f?.values.linkGBps).toBeCloseTo(is, 3)
  const behind = says('graphics.narrow', { add, limits: limits({ slotPcieGen: 5, processorPcieGen: slot }) })
  expect(behind).toMatchObject({ verdict: gives })
})

test('a card with sixteen lanes is no narrow card, and an unknown end is left to graphics.link', () => {
  expect(says('graphics.narrow', { add: [{ ...next, pcieLanes: 16, pcieGen: 4 }] })).toBeUndefined()
  expect(says('graphics.narrow', { add: [{ ...next, pcieLanes: 9, pcieGen: 4 }] })).toBeUndefined()
  const add = [{ ...next, pcieLanes: 8, pcieGen: 4 }]
  for (const key of ['slotPcieGen', 'processorPcieGen'] as const)
    expect(says('graphics.narrow', { add, limits: limits({}, [key]) })).toBeUndefined()
})

// Board pages: "the graphics slot runs at x8 when M.2 slot 2 is used".
test.each<{ lanes: number; used: 'yes' | 'no'; gives: string }>([
  { lanes: 16, used: 'yes', gives: 'fits slower' },
  { lanes: 16, used: 'no', gives: 'fits' },
  { lanes: 8, used: 'yes', gives: 'silent' },
])('x$lanes where a drive leaves x8, drive in it: $used: $gives', ({ lanes, used, gives }) => {
  const add = [{ ...next, pcieLanes: lanes }]
  const of = limits({ slotLanesShared: 8, sharedM2Used: used })
  expect(says('graphics.sharing', { add, limits: of })?.verdict ?? 'silent').toBe(gives)
  const link = says('graphics.link', { add, limits: of })
  expect(link?.values.linkLanes).toBe(used === 'yes' || lanes === 8 ? 8 : 16)
})

test('where nobody knows which slot the drive sits in, nobody knows the lanes; other boards are not asked', () => {
  const of = limits({ slotLanesShared: 8 }, ['sharedM2Used'])
  expect(says('graphics.sharing', { add: [next], limits: of })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'sharedM2Used' }] },
  })
  expect(says('graphics.sharing', { add: [next], limits: limits({}, ['slotLanesShared']) })).toBeUndefined()
})

// Card makers' pages: a card may ask for resizable BAR; it works without.
test('a card that wants a large window works without one, slower', () => {
  const add = [{ ...next, wantsLargeBar: true }]
  expect(says('graphics.largeBar', { add, limits: limits({ largeBar: 'yes' }) })).toMatchObject({
    verdict: 'fits',
  })
  expect(says('graphics.largeBar', { add, limits: limits({ largeBar: 'no' }) })).toMatchObject({
    verdict: 'fits slower',
  })
  expect(says('graphics.largeBar', { add, limits: limits({}, ['largeBar']) })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'largeBar' }] },
  })
  expect(says('graphics.largeBar', { add: [next] })).toBeUndefined()
  expect(says('graphics.largeBar', { add: [{ ...next, wantsLargeBar: false }] })).toBeUndefined()
})

test('the screen is asked about only where both ends are on record', () => {
  const add = [{ ...next, videoSockets: ['HDMI', 'DisplayPort'] as const }]
  const ask = (displaySocket: 'HDMI' | 'DVI') =>
    says('graphics.outputs', { add, limits: limits({ displaySocket }) })
  expect(ask('HDMI')).toMatchObject({ verdict: 'fits' })
  expect(ask('DVI')).toMatchObject({ verdict: 'fits after work', needs: [] })
  expect(says('graphics.outputs', { add: [next] })).toBeUndefined()
  expect(says('graphics.outputs', { add, limits: limits({}, ['displaySocket']) })).toBeUndefined()
})

test('rules about the room of a card are silent for other parts, and speak for a new case', () => {
  const other = [{ ...processor, id: 'CPU-NEW' }]
  for (const id of ['graphics.thickness', 'graphics.height'] as const) {
    expect(says(id, { add: other }), id).toBeUndefined()
    expect(says(id, { out: [card.id] }), id).toBeUndefined()
    expect(says(id, { add: [{ ...tower, id: 'CASE-NEW' }] }), id).toBeDefined()
  }
  const narrow = { ...machine, card: { ...card, pcieLanes: 8 } }
  expect(says('graphics.narrow', { add: other, before: narrow })).toBeDefined()
})

const fan: Fan = { kind: 'fan', id: 'FAN', name: 'Front fan', sizeMm: 120 }
const withFan = { ...machine, fans: [fan] }
// Plain comparison in mm (common practice): 300 mm with the front fan, 325 mm without; 1 mm either side of each.
test.each([
  { mm: 299, gives: 'fits', over: 0 },
  { mm: 300, gives: 'fits', over: 0 },
  { mm: 301, gives: 'fits after work', over: 0 },
  { mm: 325, gives: 'fits after work', over: 0 },
  { mm: 326, gives: 'does not fit', over: 1 },
])('a card of $mm mm in 300 mm, 325 mm without the front fan: $gives', ({ mm, gives, over }) => {
  const of = limits({ cardRoomMm: 300, cardRoomFreeMm: 325 }, ['frontFanFitted'])
  const f = says('graphics.length', { add: [{ ...next, lengthMm: mm }], before: withFan, limits: of })
  expect(f).toMatchObject({ verdict: gives, values: { cardMm: mm, roomMm: 300, freeMm: 325, overMm: over } })
  expect(f?.needs).toEqual(gives === 'fits after work' ? [{ work: 'move front fan' }] : [])
})

test('the room without the fan counts only where a fan is there to move', () => {
  const add = [{ ...next, lengthMm: 315 }]
  const of = (frontFanFitted?: 'yes' | 'no') =>
    frontFanFitted === undefined ? limits({}, ['frontFanFitted']) : limits({ frontFanFitted })
  expect(says('graphics.length', { add, limits: of() })?.verdict).toBe('does not fit')
  expect(says('graphics.length', { add, limits: of('yes') })?.verdict).toBe('fits after work')
  expect(says('graphics.length', { add, before: withFan, limits: of('no') })?.verdict).toBe('does not fit')
  const unmeasured = limits({}, ['cardRoomFreeMm', 'frontFanFitted'])
  expect(says('graphics.length', { add, before: withFan, limits: unmeasured })?.verdict).toBe('does not fit')
})
