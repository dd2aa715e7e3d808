import { expect, test } from 'vitest'
import { card, kit, limits, processor, says, tower } from './bench.ts'

const next = { ...card, id: 'CARD-NEW', name: 'New card' }

// GB/s: PCI Express Base Specification, gen 3 8 GT/s and gen 4 16 GT/s at 128b/130b: x8 7.877 and 15.754, x16 15.754
// and 31.508; gen 1 and 2 at 8b/10b: x1 0.25 and 0.5. Slot and processor figures: AMD pages (5500: gen 3; 2000G: x8), chipset tables (B450: gen 3).
test.each([
  { card: [4, 8], slot: [3, 16], cpu: [4, 16], link: [3, 8], gives: 'fits slower', is: 7.877, could: 15.754 },
  { card: [4, 8], slot: [4, 16], cpu: [4, 16], link: [4, 8], gives: 'fits', is: 15.754, could: 15.754 },
  { card: [4, 8], slot: [4, 16], cpu: [3, 16], link: [3, 8], gives: 'fits slower', is: 7.877, could: 15.754 },
  { card: [3, 16], slot: [3, 16], cpu: [3, 8], link: [3, 8], gives: 'fits slower', is: 7.877, could: 15.754 },
  { card: [3, 16], slot: [4, 16], cpu: [4, 16], link: [3, 16], gives: 'fits', is: 15.754, could: 15.754 },
  { card: [2, 1], slot: [1, 16], cpu: [3, 16], link: [1, 1], gives: 'fits slower', is: 0.25, could: 0.5 },
  {
    card: [4, 16],
    slot: [4, 8],
    cpu: [5, 16],
    link: [4, 8],
    gives: 'fits slower',
    is: 15.754,
    could: 31.508,
  },
] as const)('card gen/lanes $card in slot $slot with processor $cpu: $gives at $is GB/s', (c) => {
  const f = says('graphics.link', {
    add: [{ ...next, pcieGen: c.card[0], pcieLanes: c.card[1] }],
    limits: limits({
      ...{ slotPcieGen: c.slot[0], slotLanes: c.slot[1] },
      ...{ processorPcieGen: c.cpu[0], processorPcieLanes: c.cpu[1] },
    }),
  })
  expect(f).toMatchObject({ verdict: c.gives, values: { linkGen: c.link[0], linkLanes: c.link[1] } })
  expect(f?.values.linkGBps).toBeCloseTo(c.is, 3)
  expect(f?.values.cardGBps).toBeCloseTo(c.could, 3)
  expect(f?.values.lostGBps).toBeCloseTo(c.could - c.is, 3)
})

test('a generation without a published rate gives no answer', () => {
  expect(says('graphics.link', { add: [{ ...next, pcieGen: 6 }] })).toMatchObject({
    verdict: "can't tell",
    missing: [
      { spec: 'cardGBps', partId: 'CARD-NEW' },
      { spec: 'lostGBps', partId: 'CARD-NEW' },
    ],
  })
})

// Plain comparison in mm (common practice); the room as measured ends at the obstacle, so equal fits.
test.each([
  { card: 299, room: 300, gives: 'fits', over: 0 },
  { card: 300, room: 300, gives: 'fits', over: 0 },
  { card: 301, room: 300, gives: 'does not fit', over: 1 },
])('a card of $card mm in $room mm: $gives', ({ card: lengthMm, room, gives, over }) => {
  const add = [{ ...next, lengthMm }]
  const f = says('graphics.length', { add, limits: limits({ cardRoomMm: room }, ['cardRoomFreeMm']) })
  expect(f).toMatchObject({ verdict: gives, values: { cardMm: lengthMm, roomMm: room, overMm: over } })
})

test('each graphics rule looks only at what touches it', () => {
  expect(says('graphics.length', { add: [{ ...tower, id: 'CASE-NEW' }] })).toBeDefined()
  expect(says('graphics.length', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeUndefined()
  expect(says('graphics.link', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeDefined()
  expect(says('graphics.link', { add: [{ ...kit, id: 'MEM-NEW' }] })).toBeUndefined()
  for (const id of ['graphics.length', 'graphics.link', 'power.plugs'] as const)
    expect(says(id, { out: [card.id] }), id).toBeUndefined()
})
