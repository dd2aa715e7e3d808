import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import type { Run } from '../../../src/core/gain/run.ts'
import { fittedOf } from '../../../src/core/limits/asItRuns.ts'
import { asProven, claimsFromRuns, ownRunsOf, seenMemoryOf } from '../../../src/core/limits/fromRuns.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Part } from '../../../src/core/part.ts'

/** Invented parts of which nobody knows more than a name, as they come from a chat. */
const parts: Part[] = [
  { kind: 'processor', id: 'P', name: 'some processor' },
  { kind: 'board', id: 'B', name: 'some board' },
  { kind: 'memory', id: 'K', name: '16 gigs' },
]
const card = (gen: number, lanes: number): Part => ({
  ...{ kind: 'card', id: `C${gen}x${lanes}`, name: 'a card', pcieGen: gen, pcieLanes: lanes },
})
const memory = { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 } as const
const run = (changed: Partial<Run> = {}): Run => ({
  ...{ id: 'R-1', at: '2026-05-02T12:00:00.000Z', machineTag: 'M-1', titleId: 't', titleVersion: '1' },
  ...{ settingId: 's', averageFps: 60 },
  fitted: { processorId: 'P', cardId: 'C3x8', memory, link: { gen: 3, lanes: 8 } },
  ...changed,
})
const build = buildOf([...parts, card(3, 8)])

describe('the runs that speak of the machine as it stands', () => {
  test.each([
    [
      'all of its own',
      [run({ id: 'R-0', at: '2026-05-01T12:00:00.000Z' }), run()],
      undefined,
      ['R-0', 'R-1'],
    ],
    ['one of the day of the change', [run()], '2026-05-02T12:00:00.000Z', ['R-1']],
    ['none from before the change', [run()], '2026-05-02T12:00:00.001Z', []],
    ['none of another machine', [run({ machineTag: 'M-2' })], undefined, []],
    ['none of a bench', [run({ machineTag: undefined })], undefined, []],
    ['none with another card', [run({ fitted: { ...run().fitted, cardId: 'X' } })], undefined, []],
    ['none with another processor', [run({ fitted: { ...run().fitted, processorId: 'X' } })], undefined, []],
  ])('%s', (_, runs, changedAt, ids) => {
    expect(ownRunsOf('M-1', build, changedAt, runs).map((r) => r.id)).toEqual(ids)
  })
})

// Link: lower generation and fewer lanes of both ends (PCI Express Base Specification, link training).
test('a run proves the type and at least its link; a card that asks for no more runs as it did', () => {
  const machine = asProven({ tag: 'M-1', build, claims: [] }, [run()])
  const limits = limitsOf(build, machine.claims)
  expect(limits.memoryType).toMatchObject({ known: true, value: 'DDR4' })
  expect(limits.memoryRunsMts).toMatchObject({ known: false })
  expect(limits.slotPcieGen).toMatchObject({ known: false, atLeast: { value: 3 } })
  expect(fittedOf(build, limits, memory)).toEqual(run().fitted)
  for (const [gen, lanes] of [
    [3, 4],
    [2, 8],
  ] as const) {
    const smaller = buildOf([...parts, card(gen, lanes)])
    expect(fittedOf(smaller, limits, memory)?.link).toEqual({ gen, lanes })
  }
})

test('a card that asks for more than the run had is not known to get it', () => {
  const limits = limitsOf(build, claimsFromRuns([run()]))
  expect(fittedOf(buildOf([...parts, card(4, 8)]), limits, memory)).toBeUndefined()
  expect(fittedOf(buildOf([...parts, card(3, 16)]), limits, memory)).toBeUndefined()
})

test('without a run the machine proves only what its parts prove together, and nothing of it is changed', () => {
  const machine = Object.freeze({ tag: 'M-1', build, claims: Object.freeze([]) })
  expect(asProven(machine, []).claims).toEqual([])
  expect(fittedOf(build, limitsOf(build, []))).toBeUndefined()
  const known = buildOf([
    { kind: 'board', id: 'B', name: 'some board' },
    { kind: 'processor', id: 'P', name: 'a processor', socket: 'LGA1151' },
    { kind: 'memory', id: 'K', name: 'a kit', memoryType: 'DDR4' },
  ])
  const { claims } = asProven({ tag: 'M-1', build: known, claims: [] }, [])
  expect(limitsOf(known, claims)).toMatchObject({
    socket: { known: true, value: 'LGA1151' },
    memoryType: { known: true, value: 'DDR4' },
  })
  const mixed = buildOf([...parts, { kind: 'memory', id: 'K2', name: 'DDR5 kit', memoryType: 'DDR5' }])
  expect(asProven({ tag: 'M-1', build: mixed, claims: [] }, []).claims).toEqual([])
})

test('runs that differ in memory were made with something lent: then the memory of today is not known', () => {
  const lent = run({ fitted: { ...run().fitted, memory: { ...memory, totalGB: 32 } } })
  expect(seenMemoryOf([run(), run()])).toEqual(memory)
  expect(seenMemoryOf([run(), lent])).toBeUndefined()
  expect(seenMemoryOf([])).toBeUndefined()
})
