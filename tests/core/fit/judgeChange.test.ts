import fc from 'fast-check'
import { expect, test } from 'vitest'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'
import type { Machine } from '../../../src/core/machine.ts'
import type { Part } from '../../../src/core/part.ts'
import { worstVerdict } from '../../../src/core/verdict.ts'
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
    { numRuns: 150 },
  )
})
