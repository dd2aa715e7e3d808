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

// Published: LGA1151 100/200 series list 16 GB a slot; larger modules came later (memory.json, largest usual module).
test.each([
  { moduleGB: 15, gives: 'fits' },
  { moduleGB: 16, gives: 'fits' },
  { moduleGB: 17, gives: "can't tell" },
])('a module of $moduleGB GB where the board lists 16 GB a slot: $gives', ({ moduleGB, gives }) => {
  const f = says('memory.perSlot', swap({ ...next, moduleGB }, { memoryPerSlotMaxGB: 16 }))
  expect(f).toMatchObject({ verdict: gives, values: { moduleGB, listedGB: 16 } })
  expect(f?.missing.map((m) => 'limit' in m && m.limit)).toEqual(
    gives === 'fits' ? [] : ['memoryPerSlotMaxGB'],
  )
})

test('an unknown figure for one slot is asked for only where the modules go into other slots', () => {
  const of = limits({}, ['memoryPerSlotMaxGB'])
  expect(says('memory.perSlot', { add: [next], limits: of })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'memoryPerSlotMaxGB' }] },
  })
  const other = { ...processor, id: 'CPU-NEW' }
  expect(says('memory.perSlot', { add: [other], limits: of })).toBeUndefined()
  expect(says('memory.total', { add: [other], limits: limits({ memoryMaxGB: 16 }) })).toMatchObject({
    verdict: 'fits',
  })
  expect(says('memory.total', { add: [other], limits: limits({ memoryMaxGB: 15 }) })).toMatchObject({
    verdict: 'does not fit',
  })
})

// Intel pages: 12th generation 128 GB, printed before 48 GB modules; Z690 boards list 192 GB.
test.each([
  { moduleGB: 32, total: 128, gives: 'fits' },
  { moduleGB: 33, total: 132, gives: "can't tell" },
  { moduleGB: 48, total: 192, gives: "can't tell" },
  { moduleGB: 49, total: 196, gives: 'does not fit' },
])(
  '$total GB between a processor page of 128 and a board page of 192: $gives',
  ({ moduleGB, total, gives }) => {
    const of = { memoryMaxGB: 128, memoryListedMaxGB: 192 }
    const f = says('memory.total', swap({ ...next, modules: 4, moduleGB }, of))
    expect(f).toMatchObject({ verdict: gives, values: { totalGB: total, maxGB: 128, listedGB: 192 } })
    expect(f?.missing.length).toBe(gives === "can't tell" ? 1 : 0)
  },
)

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
  {
    kit: 3200,
    ctl: 2666,
    brd: 3200,
    gives: 'fits slower',
    runs: 2666,
    why: 'a locked chipset, whatever the page',
  },
  { kit: 2666, ctl: 2666, brd: 2666, gives: 'fits', runs: 2666, why: 'all equal' },
  { kit: 2400, ctl: 2666, brd: 2666, gives: 'fits', runs: 2400, why: 'a slow kit is not slowed' },
  { kit: 2667, ctl: 2666, brd: 2666, gives: 'fits slower', runs: 2666, why: 'one above the edge' },
  { kit: 3200, ctl: 3200, brd: 2933, gives: 'fits slower', runs: 2933, why: 'the board decides' },
])('$why: $kit at $ctl/$brd runs at $runs', ({ kit: rateMts, ctl, brd, gives, runs }) => {
  const f = says('memory.rate', swap({ ...next, rateMts }, { controllerRateMts: ctl, boardRateMts: brd }))
  expect(f).toMatchObject({ verdict: gives, values: { runsMts: runs, ratedMts: runs, profileMts: runs } })
})

// Intel: above the processor's published rate is overclocking, which the chipset must allow; AMD publishes 5200 for
// two modules and 3600 for four, and a profile is seldom reached with four.
test.each([
  { modules: 2, kit: 3200, ctl: 2666, brd: 3200, gives: 'fits', runs: 3200, rated: 2666, profile: 3200 },
  { modules: 2, kit: 2667, ctl: 2666, brd: 3200, gives: 'fits', runs: 2667, rated: 2666, profile: 2667 },
  { modules: 2, kit: 2666, ctl: 2666, brd: 3200, gives: 'fits', runs: 2666, rated: 2666, profile: undefined },
  {
    modules: 2,
    kit: 3600,
    ctl: 2666,
    brd: 3200,
    gives: 'fits slower',
    runs: 3200,
    rated: 2666,
    profile: 3200,
  },
  {
    modules: 4,
    kit: 6000,
    ctl: 3600,
    brd: 6400,
    gives: 'fits slower',
    runs: 3600,
    rated: 3600,
    profile: undefined,
  },
])('open chipset, $modules modules of $kit at $ctl/$brd: $gives at $runs', (c) => {
  const ask = swap(
    { ...next, modules: c.modules, rateMts: c.kit },
    { controllerRateMts: c.ctl, boardRateMts: c.brd, memoryOverclock: 'yes' },
  )
  expect(says('memory.rate', ask)).toMatchObject({
    ...{ verdict: c.gives, values: { runsMts: c.runs, ratedMts: c.rated } },
  })
  const note = says('memory.profile', ask)
  if (c.profile === undefined) expect(note).toBeUndefined()
  else expect(note).toMatchObject({ verdict: 'fits', values: { profileMts: c.profile, ratedMts: c.rated } })
})

test('nobody who knows whether the chipset is open gives the rated figure only', () => {
  const of = limits({ boardRateMts: 3200 }, ['memoryOverclock'])
  const f = says('memory.rate', { add: [{ ...next, rateMts: 3200 }], out: [kit.id], limits: of })
  expect(f).toMatchObject({ verdict: 'fits slower', values: { runsMts: 2666 } })
})

// Intel support article 000088926: identical part numbers.
test.each([
  { add: [next], out: [], gives: "can't tell", why: 'a second model beside the first' },
  { add: [kit], out: [], gives: 'silent', why: 'a second kit of the model that is fitted' },
  { add: [next], out: [kit.id], gives: 'silent', why: 'one model after the change' },
  { add: [{ ...board, id: 'BRD-NEW' }], out: [], gives: 'silent', why: 'one model on another board' },
])('$why: $gives', ({ add, out, gives }) => {
  const f = says('memory.mixing', { add, out })
  expect(f?.verdict ?? 'silent').toBe(gives)
  if (gives !== 'silent')
    expect(f?.missing).toEqual([{ spec: 'ranks', partId: 'MEM-NEW', partName: 'New kit' }])
})

test('two models that run together today are no question until the board changes', () => {
  const mixed = { ...machine, memory: [kit, next, { ...next, id: 'MEM-C' }] }
  expect(says('memory.mixing', { out: ['MEM-C'], before: mixed })).toMatchObject({ verdict: 'fits' })
  expect(says('memory.mixing', { add: [{ ...processor, id: 'CPU-NEW' }], before: mixed })).toBeUndefined()
  expect(says('memory.mixing', { add: [{ ...board, id: 'BRD-NEW' }], before: mixed })).toMatchObject({
    verdict: "can't tell",
  })
})

// Intel datasheets vol. 1, system memory organisation modes: the size of the smaller channel runs on both. By hand.
test.each([
  { sizes: [8, 8], dual: 16, single: 0 },
  { sizes: [8, 8, 8], dual: 16, single: 8 },
  { sizes: [8, 16], dual: 16, single: 8 },
  { sizes: [8, 8, 16], dual: 32, single: 0 },
  { sizes: [8, 8, 16, 16], dual: 48, single: 0 },
  { sizes: [8, 8, 8, 24], dual: 32, single: 16 },
  { sizes: [16, 4, 48], dual: 40, single: 28 },
  { sizes: [8, 8, 8, 8], dual: 32, single: 0 },
])('modules of $sizes GB: $dual GB on both channels', ({ sizes, dual, single }) => {
  const add = sizes.map((moduleGB, i) => ({ ...next, id: `MEM-${i}`, modules: 1, moduleGB }))
  expect(says('memory.flex', { add, out: [kit.id] })).toMatchObject({
    ...{ verdict: single > 0 ? 'fits slower' : 'fits' },
    values: { dualGB: dual, singleGB: single, totalGB: dual + single },
  })
})

test('one module alone is memory.channels, and half a module is no module', () => {
  expect(says('memory.flex', swap({ ...next, modules: 1 }))).toBeUndefined()
  expect(says('memory.flex', swap({ ...next, modules: 2.5 }))).toMatchObject({ verdict: "can't tell" })
  expect(says('memory.flex', swap({ ...next, modules: 1e6 }))).toMatchObject({ verdict: "can't tell" })
})

// 2^32 bytes are 4 GB.
test.each([
  { moduleGB: 1, total: 2, gives: 'fits' },
  { moduleGB: 2, total: 4, gives: 'fits' },
  { moduleGB: 4, total: 8, gives: 'fits after work' },
])('$total GB under a 32-bit system: $gives', ({ moduleGB, total, gives }) => {
  const f = says('memory.system', swap({ ...next, moduleGB }, { systemBits: 32 }))
  expect(f).toMatchObject({ verdict: gives, values: { totalGB: total } })
  expect(f?.needs).toEqual(gives === 'fits' ? [] : [{ work: 'reinstall' }])
  expect(says('memory.system', swap({ ...next, moduleGB }, { systemBits: 64 }))).toBeUndefined()
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
