import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'
import type { Machine } from '../../../src/core/machine.ts'
import type { Part } from '../../../src/core/part.ts'
import { worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { board, card, change, cooler, kit, machine, policy, processor, supply, tower } from './bench.ts'

const freeze = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) Object.values(value).forEach(freeze)
  return Object.freeze(value)
}
/** An H470 board whose page gives its slot, as the tables do not say how a board wires it. */
const wired = { ...board, slotPcieGen: 3, slotLanes: 16 }
const sold = (changed: Partial<Machine['build']> = {}, claims: readonly Claim[] = []): Machine =>
  freeze({ tag: 'M-0001', build: { ...machine, board: wired, ...changed }, claims })
const ruleOf = (judged: ReturnType<typeof judgeChange>, id: string) =>
  judged.findings.find((f) => f.rule === id)

const longCard = { ...card, id: 'CARD-NEW', name: 'New card', lengthMm: 310 }

test('no change gives no finding, and fits', () => {
  const judged = judgeChange(sold(), change([]), policy)
  expect(judged).toMatchObject({ verdict: 'fits', findings: [], after: sold().build })
})

test('the verdict is the worst of the findings, which come in the order of the rules', () => {
  const judged = judgeChange(sold(), change([longCard]), policy)
  expect(judged.verdict).toBe('does not fit')
  expect(judged.findings.map((f) => [f.rule, f.verdict])).toEqual([
    ['graphics.link', 'fits'],
    ['graphics.length', 'does not fit'],
    ['graphics.thickness', 'fits'],
    ['power.load', 'fits'],
    ['power.plugs', 'fits'],
  ])
})

test('a tape measure decides over the data sheet, and a new case ends what was measured in the old one', () => {
  const claims: Claim[] = [{ key: 'cardRoomMm', value: 320, source: 'measured', at: '2026-01-02T00:00:00Z' }]
  const measured = judgeChange(sold({}, claims), change([longCard]), policy)
  expect(ruleOf(measured, 'graphics.length')).toMatchObject({ verdict: 'fits', values: { roomMm: 320 } })
  const newCase = { ...tower, id: 'CASE-NEW', cardRoomMm: undefined }
  const moved = judgeChange(sold({}, claims), change([longCard, newCase]), policy)
  expect(ruleOf(moved, 'graphics.length')).toMatchObject({
    verdict: "can't tell",
    missing: [{ limit: 'cardRoomMm' }],
  })
})

test('a fault that was there before does not spoil a change that does not touch it', () => {
  const crowded = sold({ card: longCard })
  const newKit = { ...kit, id: 'MEM-NEW' }
  const judged = judgeChange(crowded, change([newKit], [kit.id]), policy)
  expect(ruleOf(judged, 'graphics.length')).toBeUndefined()
  expect(judged.verdict).toBe('fits')
})

// Intel product pages: 10th generation i3 and i5 are rated DDR4-2666, i7 DDR4-2933; H410, B460 and H470 allow no
// memory overclocking (field data: 0 of 547 machines on them run above the processor's rate).
test.each([
  { chipset: 'H410', processorClass: 'i3', runs: 2666 },
  { chipset: 'B460', processorClass: 'i5', runs: 2666 },
  { chipset: 'H470', processorClass: 'i5', runs: 2666 },
  { chipset: 'H410', processorClass: 'i7', runs: 2933 },
])(
  'a DDR4-3200 kit with a 10th $processorClass on $chipset ends at $runs MT/s',
  ({ chipset, processorClass, runs }) => {
    const before = sold({ board: { ...wired, chipset }, processor: { ...processor, processorClass } })
    const fast = { ...kit, id: 'MEM-NEW', rateMts: 3200 }
    const judged = judgeChange(before, change([fast], [kit.id]), policy)
    expect(ruleOf(judged, 'memory.rate')).toMatchObject({ verdict: 'fits slower', values: { runsMts: runs } })
  },
)

// Intel's H410/B460 statement (10th only) and H470 (11th after an update); LGA1151 is two families (Intel pages).
test.each([
  { chipset: 'B460', socket: 'LGA1200', generation: '11th (Rocket Lake)', gives: 'does not fit' },
  { chipset: 'H470', socket: 'LGA1200', generation: '11th (Rocket Lake)', gives: 'fits' },
  { chipset: 'Z170', socket: 'LGA1151', generation: '9th (Coffee Lake Refresh)', gives: 'does not fit' },
  { chipset: 'B360', socket: 'LGA1151', generation: '8th (Coffee Lake)', gives: 'fits' },
  { chipset: 'A320', socket: 'AM4', generation: 'Ryzen 5000 (Zen 3)', gives: "can't tell" },
])('$generation on $chipset: $gives', ({ chipset, socket, generation, gives }) => {
  const oldProcessor = { ...processor, socket, generation: undefined }
  const before = sold({ board: { ...wired, chipset, socket }, processor: oldProcessor })
  const next: Part = { ...processor, id: 'CPU-NEW', socket, generation, processorClass: undefined }
  const judged = judgeChange(before, change([next]), policy)
  expect(ruleOf(judged, 'processor.socket')).toMatchObject({ verdict: 'fits' })
  expect(ruleOf(judged, 'processor.generation')).toMatchObject({ verdict: gives })
})

test('the board maker’s list and the firmware as read decide an update', () => {
  const next: Part = { ...processor, id: 'CPU-NEW', generation: '11th (Rocket Lake)', processorClass: 'i5' }
  const listed = { ...wired, firmwareByGeneration: { '11th (Rocket Lake)': '1.60' } }
  const judge = (have: string) =>
    judgeChange(
      sold({ board: listed }, [{ key: 'firmware', value: have, source: 'read' }]),
      change([next]),
      policy,
    )
  expect(ruleOf(judge('1.20'), 'processor.firmware')).toMatchObject({
    ...{ verdict: 'fits after work', needs: [{ work: 'firmware update' }] },
    values: { haveFirmware: '1.20', needFirmware: '1.60' },
  })
  expect(ruleOf(judge('1.60'), 'processor.firmware')).toMatchObject({ verdict: 'fits', needs: [] })
})

test('a card that needs a supply fits with one in the same change', () => {
  const hungry = { ...card, id: 'CARD-NEW', boardPowerW: 300, plugs: { pin6: 0, pin8: 3, pin16: 0 } }
  const alone = judgeChange(sold(), change([hungry]), policy)
  expect(alone.verdict).toBe('fits after work')
  expect(alone.findings.flatMap((f) => f.needs)).toEqual([{ part: 'supply' }, { part: 'supply' }])
  const strong = { ...supply, id: 'PSU-NEW', rail12VW: 740, plugs: { pin6: 0, pin8: 3, pin16: 0 } }
  const together = judgeChange(sold(), change([hungry, strong]), policy)
  expect(together.verdict).toBe('fits')
  expect(together.findings.map((f) => f.rule)).toContain('case.supply')
})

const fittedParts = [processor, wired, kit, card, supply, tower, cooler]

test('law: the same parts out and in again is neutral, on machines with any of their figures missing', () => {
  const bare = fc.subarray(
    Object.keys({ ...processor, ...card, ...supply, ...wired }).filter(
      (k) => !['kind', 'id', 'name'].includes(k),
    ),
  )
  fc.assert(
    fc.property(bare, fc.subarray(fittedParts), (dropped, again) => {
      const strip = (p: Part) =>
        Object.fromEntries(Object.entries(p).filter(([k]) => !dropped.includes(k))) as Part
      const build = judgeChange(
        { tag: 'M', build: machine, claims: [] },
        change(fittedParts.map(strip), [kit.id]),
        policy,
      ).after
      const judged = judgeChange(
        { tag: 'M', build, claims: [] },
        change(
          again.map(strip),
          again.map((p) => p.id),
        ),
        policy,
      )
      expect(judged).toMatchObject({ verdict: 'fits', findings: [] })
    }),
  )
})

test('law: on machines with figures missing, the verdict is the worst finding and no unknown reads as fine', () => {
  const news: Part[] = fittedParts.map((p) => ({ ...p, id: `${p.id}-NEW` }))
  const names = [
    'limitPowerW',
    'boardPowerW',
    'rail12VW',
    'plugs',
    'lengthMm',
    'cardRoomMm',
    'socket',
    'slotLanes',
    'rateMts',
    'sockets',
  ]
  fc.assert(
    fc.property(fc.subarray(names), fc.subarray(news, { minLength: 1 }), (dropped, add) => {
      const strip = (p: Part) =>
        Object.fromEntries(Object.entries(p).filter(([k]) => !dropped.includes(k))) as Part
      const before = judgeChange(
        { tag: 'M', build: machine, claims: [] },
        change(fittedParts.map(strip), [kit.id]),
        policy,
      ).after
      const judged = judgeChange(
        { tag: 'M', build: before, claims: [] },
        change(add.map(strip), add.some((p) => p.kind === 'memory') ? [kit.id] : []),
        policy,
      )
      expect(judged.verdict).toBe(worstVerdict(judged.findings.map((f) => f.verdict)))
      for (const rule of RULES) {
        const unread = rule.reads.filter((key) => !judged.limitsAfter[key].known)
        const finding = judged.findings.find((f) => f.rule === rule.id)
        if (finding === undefined || unread.length === 0 || finding.verdict === "can't tell") continue
        // The one exception: a lower bound is known and already enough, and the finding says so.
        expect(finding).toMatchObject({ verdict: 'fits', atLeast: unread })
        for (const key of unread) expect(judged.limitsAfter[key]).toMatchObject({ atLeast: { key } })
      }
    }),
    { numRuns: runs(150) },
  )
})

describe('old modules in the way of new ones', () => {
  const fitted = (slots: number | undefined, ...kits: Machine['build']['memory']) =>
    sold({ board: { ...wired, memorySlots: slots }, memory: kits.length === 0 ? [kit] : kits })
  const two = { ...kit, id: 'MEM-NEW', rateMts: 2400 }

  // One module a slot (common practice): 2 + 2 modules in 2 slots.
  test('they come out, and everything is judged without them', () => {
    const judged = judgeChange(fitted(2), change([two]), policy)
    expect(ruleOf(judged, 'memory.slots')).toMatchObject({
      ...{ verdict: 'fits after work', needs: [{ work: 'remove old modules' }] },
      values: { modules: 2, slots: 2, usedSlots: 2 },
    })
    expect(judged.after.memory.map((k) => k.id)).toEqual(['MEM-NEW'])
    expect(ruleOf(judged, 'memory.total')).toMatchObject({ values: { totalGB: 16 } })
    expect(ruleOf(judged, 'memory.rate')).toMatchObject({ values: { slowestMts: 2400, fastestMts: 2400 } })
    expect(ruleOf(judged, 'memory.mixing')).toBeUndefined()
  })

  test.each([
    {
      slots: 3,
      add: [two],
      gives: 'fits after work',
      left: ['MEM-NEW'],
      why: 'three slots for four modules',
    },
    { slots: 4, add: [two], gives: 'fits', left: ['MEM-OLD', 'MEM-NEW'], why: 'a slot for each' },
    { slots: 1, add: [two], gives: 'does not fit', left: ['MEM-OLD', 'MEM-NEW'], why: 'too few even alone' },
    {
      slots: 2,
      add: [kit],
      gives: 'does not fit',
      left: ['MEM-OLD', 'MEM-OLD'],
      why: 'the model that is fitted',
    },
  ])('$why: $gives', ({ slots, add, gives, left }) => {
    const judged = judgeChange(fitted(slots), change(add), policy)
    expect(ruleOf(judged, 'memory.slots')).toMatchObject({ verdict: gives })
    expect(judged.after.memory.map((k) => k.id)).toEqual(left)
  })

  test('a new board brings its own slots, so nothing is taken out for it', () => {
    const next = { ...wired, id: 'BRD-NEW', memorySlots: 2 }
    const judged = judgeChange(fitted(4), change([next, two]), policy)
    expect(ruleOf(judged, 'memory.slots')).toMatchObject({ verdict: 'does not fit' })
  })

  test('modules of unknown number are never taken for few', () => {
    const judged = judgeChange(fitted(2), change([{ ...two, modules: undefined }]), policy)
    expect(ruleOf(judged, 'memory.slots')).toMatchObject({ verdict: "can't tell" })
  })
})

describe('what runs today is a lower bound', () => {
  const open = { ...tower, cardRoomMm: undefined, cardSlots: undefined }
  const card310 = { ...card, lengthMm: 310, thicknessMm: 50 }
  const ask = (next: Partial<typeof card>, add: readonly Part[] = []) =>
    judgeChange(sold({ case: open, card: card310 }), change([{ ...card, id: 'C', ...next }, ...add]), policy)

  // The card that is fitted proves its own length and slots (common practice).
  test.each([
    { lengthMm: 309, thicknessMm: 50, gives: 'fits' },
    { lengthMm: 310, thicknessMm: 50, gives: 'fits' },
    { lengthMm: 311, thicknessMm: 50, gives: "can't tell" },
    { lengthMm: 300, thicknessMm: 51, gives: "can't tell" },
  ])('$lengthMm mm, $thicknessMm mm thick after 310 and 50 mm: $gives', ({ gives, ...next }) => {
    expect(ruleOf(ask(next), 'graphics.length')).toMatchObject({
      verdict: gives,
      ...(gives === 'fits' ? { atLeast: ['cardRoomMm'], values: { roomMm: 310 } } : {}),
    })
  })

  test.each([
    { thicknessMm: 60.96, gives: 'fits' },
    { thicknessMm: 61, gives: "can't tell" },
  ])('a card of $thicknessMm mm after one of three slots: $gives', ({ thicknessMm, gives }) => {
    expect(ruleOf(ask({ thicknessMm }), 'graphics.thickness')).toMatchObject({ verdict: gives })
  })

  test('a card of unknown thickness, a new fan or a new case ends the proof', () => {
    const isUnsure = (judged: ReturnType<typeof judgeChange>) =>
      expect(ruleOf(judged, 'graphics.length')).toMatchObject({ verdict: "can't tell" })
    isUnsure(ask({ lengthMm: 200, thicknessMm: undefined }))
    isUnsure(ask({ lengthMm: 200 }, [{ kind: 'fan', id: 'FAN', name: 'New fan' }]))
    isUnsure(ask({ lengthMm: 200 }, [{ ...open, id: 'CASE-NEW' }]))
    const unknownOld = { ...card310, thicknessMm: undefined }
    isUnsure(judgeChange(sold({ case: open, card: unknownOld }), change([{ ...card, id: 'C' }]), policy))
  })

  test('slots, total and module size in use prove themselves, on the same board', () => {
    const bare = { ...wired, memorySlots: undefined, memoryMaxGB: undefined, memoryPerSlotMaxGB: undefined }
    const next = { ...kit, id: 'MEM-NEW', rateMts: 2666 }
    const swap = (k: Partial<typeof kit>, add: readonly Part[] = []) =>
      judgeChange(sold({ board: bare }), change([{ ...next, ...k }, ...add], [kit.id]), policy)
    const verdicts = (judged: ReturnType<typeof judgeChange>) =>
      (['memory.slots', 'memory.total', 'memory.perSlot'] as const).map((id) => ruleOf(judged, id)?.verdict)
    expect(verdicts(swap({}))).toEqual(['fits', 'fits', 'fits'])
    expect(verdicts(swap({ modules: 4, moduleGB: 4 }))).toEqual(["can't tell", 'fits', 'fits'])
    expect(verdicts(swap({ moduleGB: 16 }))).toEqual(['fits', "can't tell", "can't tell"])
    expect(verdicts(swap({}, [{ ...bare, id: 'BRD-NEW' }]))).toEqual([
      "can't tell",
      "can't tell",
      "can't tell",
    ])
    const other = { ...processor, id: 'CPU-NEW', processorClass: 'i5' }
    // The board runs this total today, and a 10th generation i5 drives 128 GB by its page (Intel).
    expect(verdicts(swap({}, [other]))).toEqual(['fits', 'fits', 'fits'])
    const unread10th = { ...other, generation: undefined }
    expect(verdicts(swap({}, [unread10th]))).toEqual(['fits', "can't tell", 'fits'])
    const unread = sold({ board: bare, memory: [{ ...kit, modules: undefined }] })
    expect(verdicts(judgeChange(unread, change([next], [kit.id]), policy))).toEqual(
      Array(3).fill("can't tell"),
    )
  })
})

// Intel pages: 10th generation i3 2666, i7 2933; without a class 2666 is sure. 8th generation i3 64 GB, i5 128 GB.
test('of a class that nobody knows the least is sure', () => {
  const noClass = { ...processor, processorClass: undefined }
  const before = sold({ processor: noClass, board: { ...wired, memoryRateMtsMax: 2933 } })
  const rate = (rateMts: number) =>
    ruleOf(judgeChange(before, change([{ ...kit, id: 'M', rateMts }], [kit.id]), policy), 'memory.rate')
  expect(rate(2666)).toMatchObject({ verdict: 'fits', atLeast: ['controllerRateMts'] })
  expect(rate(2667)).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'controllerRateMts' }] })
  const coffee = { ...noClass, socket: 'LGA1151', generation: '8th (Coffee Lake)' }
  const b360 = { ...wired, chipset: 'B360', socket: 'LGA1151', memoryMaxGB: 128 }
  const total = (moduleGB: number) => {
    const change4 = change([{ ...kit, id: 'M', modules: 4, moduleGB }], [kit.id])
    return ruleOf(judgeChange(sold({ processor: coffee, board: b360 }), change4, policy), 'memory.total')
  }
  expect(total(16)).toMatchObject({ verdict: 'fits', atLeast: ['memoryMaxGB'] })
  expect(total(32)).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'memoryMaxGB' }] })
})

// AMD's chipset page does not tell Intel boards apart; without a chipset its generations and rates follow from nothing.
test('where a limit follows from the chipset and nobody knows that, the chipset is asked for', () => {
  const next: Part = { ...processor, id: 'CPU-NEW', generation: '11th (Rocket Lake)' }
  const judged = judgeChange(sold({ board: { ...wired, chipset: undefined } }), change([next]), policy)
  expect(ruleOf(judged, 'processor.generation')?.missing).toEqual([
    { limit: 'generationSupport' },
    { limit: 'chipset' },
  ])
})
