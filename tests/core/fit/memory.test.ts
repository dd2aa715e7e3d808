import { expect, test } from 'vitest'
import type { MemoryKit } from '../../../src/core/part.ts'
import { board, card, kit, limits, machine, processor, says } from './bench.ts'

const next: MemoryKit = { ...kit, id: 'MEM-NEW', name: 'New kit' }
const swap = (add: MemoryKit, over: Parameters<typeof limits>[0] = {}) => ({
  ...{ add: [add], out: [kit.id], limits: limits(over) },
})

// Intel 655258: one technology a system; JEDEC JESD79-3-1 (from memory): DDR3L also runs at 1.5 V.
test.each([
  { kit: 'DDR4', board: 'DDR4', gives: 'fits' },
  { kit: 'DDR5', board: 'DDR4', gives: 'does not fit' },
  { kit: 'DDR4', board: 'DDR5', gives: 'does not fit' },
  { kit: 'DDR3', board: 'DDR4', gives: 'does not fit' },
  { kit: 'DDR3L', board: 'DDR3', gives: 'fits' },
  { kit: 'DDR3', board: 'DDR3L', gives: 'does not fit' },
] as const)('$kit on a board for $board: $gives', ({ kit: memoryType, board: takes, gives }) => {
  const f = says('memory.generation', swap({ ...next, memoryType }, { memoryType: takes }))
  expect(f).toMatchObject({ verdict: gives, partId: 'MEM-NEW' })
  expect(f?.values).toEqual({ kitGeneration: memoryType, boardGeneration: takes })
})

test('one kit of another generation beside a right one is found', () => {
  const add = [{ ...next, memoryType: 'DDR5' as const }]
  expect(says('memory.generation', { add })).toMatchObject({
    verdict: 'does not fit',
    values: { kitGeneration: 'DDR5' },
  })
})

// Pins differ (JEDEC): DDR4 DIMM 288, SO-DIMM 260.
test('laptop modules do not go into a desktop board', () => {
  expect(says('memory.form', swap({ ...next, form: 'SO-DIMM' }))).toMatchObject({ verdict: 'does not fit' })
  expect(says('memory.form', swap(next))).toMatchObject({ verdict: 'fits' })
  expect(says('memory.form', swap({ ...next, form: undefined }))).toMatchObject({
    missing: [{ spec: 'form' }],
  })
})

// One module a slot (common practice): the old kit of 2 stays.
test.each([
  { slots: 3, gives: 'does not fit' },
  { slots: 4, gives: 'fits' },
  { slots: 5, gives: 'fits' },
])('2 modules beside 2 on $slots slots: $gives', ({ slots, gives }) => {
  const f = says('memory.slots', { add: [next], limits: limits({ memorySlots: slots }) })
  expect(f).toMatchObject({ verdict: gives, values: { modules: 4, slots }, needs: [] })
})

test('taking the old kit out makes room', () => {
  expect(says('memory.slots', swap(next, { memorySlots: 2 }))).toMatchObject({ verdict: 'fits' })
})

// Published: H310, H410, H510 take 64 GB; 2 x 8 GB stay (16 GB), so 2 x 24 GB reaches the limit exactly.
test.each([
  { moduleGB: 23, gives: 'fits', total: 62 },
  { moduleGB: 24, gives: 'fits', total: 64 },
  { moduleGB: 25, gives: 'does not fit', total: 66 },
])('16 GB and 2 x $moduleGB GB of 64 GB: $gives', ({ moduleGB, gives, total }) => {
  const f = says('memory.total', { add: [{ ...next, moduleGB }], limits: limits({ memoryMaxGB: 64 }) })
  expect(f).toMatchObject({ verdict: gives, values: { totalGB: total, maxGB: 64 } })
})

// Published: LGA1151 100/200 series take 16 GB a slot.
test.each([
  { moduleGB: 15, gives: 'fits' },
  { moduleGB: 16, gives: 'fits' },
  { moduleGB: 17, gives: 'does not fit' },
])('a module of $moduleGB GB where a slot takes 16 GB: $gives', ({ moduleGB, gives }) => {
  const f = says('memory.total', swap({ ...next, moduleGB }, { memoryPerSlotMaxGB: 16 }))
  expect(f).toMatchObject({ verdict: gives, values: { moduleGB, perSlotGB: 16 } })
})

test('an unknown figure for one slot is fine only where the modules stay, and does not hide a plain no', () => {
  const of = (memoryMaxGB: number) => limits({ memoryMaxGB }, ['memoryPerSlotMaxGB'])
  expect(says('memory.total', { add: [next], limits: of(64) })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'memoryPerSlotMaxGB' }] },
  })
  expect(says('memory.total', { add: [next], limits: of(31) })).toMatchObject({ verdict: 'does not fit' })
  const other = { ...processor, id: 'CPU-NEW' }
  expect(says('memory.total', { add: [other], limits: of(16) })).toMatchObject({ verdict: 'fits' })
  expect(says('memory.total', { add: [other], limits: of(15) })).toMatchObject({ verdict: 'does not fit' })
})

// By hand: runs = min(slowest module, controller, board).
// Intel product pages: 10th generation i3/i5 DDR4-2666, i7/i9 DDR4-2933; H410, B460, H470: no memory overclocking,
// so the board goes no higher than the controller's rated figure.
test.each([
  {
    kit: 3200,
    ctl: 2666,
    brd: 2666,
    gives: 'fits slower',
    runs: 2666,
    why: 'DDR4-3200 with a 10th i5, locked board',
  },
  { kit: 3200, ctl: 2933, brd: 2933, gives: 'fits slower', runs: 2933, why: 'the same kit with a 10th i7' },
  { kit: 3200, ctl: 2666, brd: 3200, gives: 'fits slower', runs: 2666, why: 'overclocking is no promise' },
  { kit: 2666, ctl: 2666, brd: 2666, gives: 'fits', runs: 2666, why: 'all equal' },
  { kit: 2400, ctl: 2666, brd: 2666, gives: 'fits', runs: 2400, why: 'a slow kit is not slowed' },
  { kit: 2667, ctl: 2666, brd: 2666, gives: 'fits slower', runs: 2666, why: 'one above the edge' },
  { kit: 3200, ctl: 3200, brd: 2933, gives: 'fits slower', runs: 2933, why: 'the board decides' },
])('$why: $kit at $ctl/$brd runs at $runs', ({ kit: rateMts, ctl, brd, gives, runs }) => {
  const f = says('memory.rate', swap({ ...next, rateMts }, { controllerRateMts: ctl, boardRateMts: brd }))
  expect(f).toMatchObject({ verdict: gives, values: { runsMts: runs, profileMts: Math.min(rateMts, brd) } })
})

test('the slowest of two kits decides, and slows the faster one', () => {
  const of = limits({ controllerRateMts: 3200, boardRateMts: 3200 })
  const f = says('memory.rate', { add: [{ ...next, rateMts: 3200 }], limits: of })
  expect(f).toMatchObject({
    verdict: 'fits slower',
    values: { runsMts: 2666, slowestMts: 2666, fastestMts: 3200 },
  })
})

// JEDEC: 64-bit data path a module; two channels double the peak rate.
test.each([
  { modules: 1, gives: 'fits slower', used: 1 },
  { modules: 2, gives: 'fits', used: 2 },
  { modules: 3, gives: 'fits', used: 2 },
])('$modules module(s) use $used of 2 channels', ({ modules, gives, used }) => {
  expect(says('memory.channels', swap({ ...next, modules }))).toMatchObject({
    ...{ verdict: gives, values: { modules, channelsUsed: used, channels: 2 } },
  })
})

test('a second single module opens the second channel', () => {
  const before = { ...machine, memory: [{ ...kit, modules: 1 }] }
  expect(says('memory.channels', { add: [{ ...next, modules: 1 }], before })).toMatchObject({
    verdict: 'fits',
  })
})

test('memory rules are silent without memory, and when something else changes', () => {
  const ids = [
    'memory.generation',
    'memory.form',
    'memory.slots',
    'memory.total',
    'memory.rate',
    'memory.channels',
  ] as const
  for (const id of ids) {
    expect(says(id, { out: [kit.id] }), id).toBeUndefined()
    expect(says(id, { add: [{ ...card, id: 'CARD-NEW' }] }), id).toBeUndefined()
  }
  expect(says('memory.rate', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeDefined()
  for (const id of ids.filter((name) => name !== 'memory.channels'))
    expect(says(id, { add: [{ ...board, id: 'BRD-NEW' }] }), id).toBeDefined()
  expect(says('memory.channels', { add: [{ ...board, id: 'BRD-NEW' }] })).toBeUndefined()
})
