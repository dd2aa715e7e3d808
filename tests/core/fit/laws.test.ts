import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Build, buildOf } from '../../../src/core/build.ts'
import type { Finding } from '../../../src/core/fit/finding.ts'
import { judge } from '../../../src/core/fit/rule.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import { LIMIT_CATALOGUE } from '../../../src/core/limits/catalogue.ts'
import type { LimitKey, Limits, LimitValues } from '../../../src/core/limits/limit.ts'
import type { Part } from '../../../src/core/part.ts'
import { isFitting, rankOfVerdict, worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import {
  board,
  card,
  change,
  cooler,
  kit,
  LIMIT_KEYS,
  LIMIT_VALUES,
  limits,
  machine,
  processor,
  situation,
  supply,
  tower,
} from './bench.ts'
import { isMoreDrawn, MORE_KEYS, raise } from './more.ts'

/** Parts of every kind around the invented ones, on both sides of every edge of its limits. */
const some = <T>(...values: T[]) => fc.constantFrom(...values)
const processors = fc.record({
  ...{
    kind: some('processor' as const),
    id: some('CPU-A', 'CPU-A', 'CPU-A', 'CPU-OLD'),
    name: some('Some processor'),
  },
  ...{ socket: some('LGA1200', 'LGA1700'), generation: some('10th (Comet Lake)', '11th (Rocket Lake)') },
  ...{ limitPowerW: some(125, 126, 250, 250), integratedGraphics: fc.boolean() },
})
const boards = fc.record({
  ...{ kind: some('board' as const), id: some('BRD-A', 'BRD-OLD'), name: some('Some board') },
  ...{ socket: some('LGA1200', 'LGA1700'), form: some('ATX' as const, 'microATX' as const) },
  frontHeaders: some(undefined, [], ['HD audio' as const]),
  m2Sockets: fc.option(
    fc.array(
      fc.record({
        ...{ name: some('M2_1', 'M2_2'), key: some('M' as const, 'B' as const, 'E' as const) },
        ...{ lengthsMm: some([80], [60, 80]), pcieGen: some(3, 4), lanes: some(2, 4), sata: fc.boolean() },
        ...{
          sataPortsOff: some([], ['SATA_1'], ['SATA_1', 'SATA_2']),
          sharesSlot: some(undefined, true as const),
        },
      }),
      { maxLength: 3 },
    ),
    { nil: undefined },
  ),
})
const drives = fc.record({
  ...{ kind: some('drive' as const), id: some('DRV-A', 'DRV-B'), name: some('Some drive') },
  ...{ form: some('M.2' as const, '2.5-inch' as const, '3.5-inch' as const) },
  ...{ interface: some('SATA' as const, 'PCIe' as const), m2Key: some('M' as const, 'B+M' as const) },
  ...{ lengthMm: some(60, 80), pcieGen: some(3, 4), pcieLanes: some(2, 4) },
})
const fans = fc.record({
  ...{ kind: some('fan' as const), id: some('FAN-A', 'FAN-B'), name: some('Some fan') },
  sizeMm: some(120, 140),
})
const kits = fc.record({
  ...{ kind: some('memory' as const), id: some('MEM-A', 'MEM-B'), name: some('Some kit') },
  ...{ memoryType: some('DDR4' as const, 'DDR5' as const), form: some('DIMM' as const, 'SO-DIMM' as const) },
  ...{ modules: some(1, 2, 4), moduleGB: some(8, 32, 48), rateMts: some(2400, 2666, 3200) },
  heightMm: some(35, 36, 37),
})
const plugs = fc.record({ pin6: fc.nat({ max: 2 }), pin8: fc.nat({ max: 3 }), pin16: some(0, 1, 1) })
const cards = fc.record({
  ...{
    kind: some('card' as const),
    id: some('CARD-A', 'CARD-A', 'CARD-OLD'),
    name: some('Some card'),
    plugs,
  },
  ...{
    lengthMm: some(299, 300, 301),
    boardPowerW: some(120, 260, 261, 350, 350, 350),
    pcieGen: some(3, 4),
    pcieLanes: some(8, 16),
    thicknessMm: some(40.64, 41, 82),
    wantsLargeBar: fc.boolean(),
  },
})
const supplies = fc.record({
  ...{ kind: some('supply' as const), id: some('PSU-A', 'PSU-OLD'), name: some('Some supply') },
  form: some('ATX' as const, 'SFX' as const),
  lengthMm: some(150, 200),
})
const coolers = fc.record({
  ...{ kind: some('cooler' as const), id: some('COOL-A', 'COOL-OLD'), name: some('Some cooler') },
  ...{
    sockets: some(['LGA1200'], ['AM4']),
    heightMm: some(159, 160, 161),
    kitSockets: some([], ['LGA1200']),
  },
  ...{ memoryRoomMm: some(undefined, 35, 36), ratedW: some(undefined, 125) },
  ...{ radiatorMm: some(undefined, 240), radiatorThicknessMm: some(0.5, 27) },
})
const cases = fc.constantFrom<Part>(
  { ...tower, id: 'CASE-A' },
  { ...tower, id: 'CASE-B', boardForms: ['ATX'], radiatorPlaces: [{ place: 'top', sizeMm: 240 }] },
  {
    ...{ ...tower, id: 'CASE-C', frontPlugs: ['HD audio'] },
    fanPlaces: [{ place: 'front', sizeMm: 120, count: 1 }],
  },
)
const part: fc.Arbitrary<Part> = fc.oneof(
  processors,
  boards,
  kits,
  cards,
  supplies,
  coolers,
  cases,
  drives,
  fans,
)
const changes = fc.record({
  add: fc.array(part, { maxLength: 3 }),
  removeIds: fc.subarray(['MEM-OLD', 'CARD-OLD', 'COOL-OLD', 'MEM-A']),
  work: fc.subarray(['firmware update', 'memory profile on', 'system upgrade']),
})
const limitSets = fc.record({
  ...{ generationSupport: some('native', 'firmware update', 'board by board', 'not supported') },
  ...{
    firmware: some('1.10', '1.20', 'F4'),
    slotPcieGen: some(3, 4),
    slotLanes: some(8, 16),
    supplyPlugs: plugs,
  },
  ...{
    supply12VW: some(400, 499, 500, 650),
    cardRoomMm: some(299, 300),
    processorPowerW: some(124, 125, 300, 300),
    slotLanesShared: some(4, 16),
    sharedM2Used: some('yes', 'no'),
    memoryOverclock: some('yes', 'no'),
    brandBoard: some('yes', 'no'),
    brandCase: some('yes', 'no'),
    firmwareAllowList: some('yes', 'no'),
    processorPlug: some('4-pin', '8-pin'),
    supplyDesignVersion: some('ATX12V 2.x', 'ATX 3.0'),
    supplyRatedW: some(450, 450, 550, 660, 1400),
    supplyYear: some(2015, 2020, 2025),
    pin16W: some(150, 300),
    cardCables: some(0, 1, 2),
    supplyRoomMm: some(199, 200),
    supplyAndCardMm: some(449, 450, 500),
    cardRoomFreeMm: some(299, 300, 325),
    frontFanFitted: some('yes', 'no'),
    sataPorts: some(0, 1, 2, 4),
    sataPlugs: some(0, 1, 2),
    bays25: some(0, 1),
    bays35: some(0, 1, 2),
  },
}) as fc.Arbitrary<Partial<LimitValues>>

/** A supply has an age on that day. */
const JUDGED_AT = '2026-11-25T12:00:00.000Z'

/** Close quarters: a cooler over the memory that nobody rated, and a radiator goes only where a long card ends. */
const tight: Build = {
  ...machine,
  case: { ...tower, radiatorPlaces: [{ place: 'front', sizeMm: 240 }] },
  cooler: { ...cooler, ratedW: undefined, memoryRoomMm: 35 },
  memory: [{ ...kit, heightMm: 35 }],
}

/** What the rules say of a change, whatever the limits: what they judge is made ready once. */
const saidOf = (
  c: { add: readonly Part[]; removeIds: readonly string[]; work?: readonly string[] },
  before: Build = tight,
): ((of: Limits) => Finding[]) => {
  const s = { ...situation(change(c.add, c.removeIds, c.work), before), at: JUDGED_AT }
  return (of) => RULES.map((r) => judge(r, s, of)).filter((f) => f !== undefined)
}
const overall = (findings: readonly Finding[]) => worstVerdict(findings.map((f) => f.verdict))

/** Seldom drawn: the processor needs newer firmware, and the update is part of the job. */
const UPDATE_IN_THE_JOB = [
  {
    add: [{ ...processor, id: 'CPU-A', generation: '11th (Rocket Lake)' }],
    removeIds: [],
    work: ['firmware update'],
  },
  { generationSupport: 'firmware update' },
] as unknown as [ValueOf<typeof changes>, ValueOf<typeof limitSets>]
/** The same without the update, which the rule then asks for. */
const UPDATE_ASKED_FOR: typeof UPDATE_IN_THE_JOB = [
  { ...UPDATE_IN_THE_JOB[0], work: [] },
  UPDATE_IN_THE_JOB[1],
]
type ValueOf<A> = A extends fc.Arbitrary<infer T> ? T : never

test('law: a limit nobody knows turns every finding that reads it into "can\'t tell" and permits nothing new', () => {
  const turned = new Set<string>()
  fc.assert(
    fc.property(changes, limitSets, (c, values) => {
      const said = saidOf(c)
      const all = limits(values)
      const before = said(all)
      const textBefore = new Map(before.map((f) => [f.rule, text(f)]))
      const wasFitting = isFitting(overall(before))
      const faults: string[] = []
      for (const key of LIMIT_KEYS) {
        const after = said({ ...all, [key]: { known: false, claims: [] } })
        for (const f of after.filter(({ rule }) => readers[key].has(rule))) {
          if (f.verdict !== "can't tell" || !names(f, key)) faults.push(`${f.rule} does not need ${key}`)
          turned.add(`${f.rule} ${key}`)
        }
        const findingAfter = new Map(after.map((f) => [f.rule, f]))
        for (const id of deaf[key])
          if (text(findingAfter.get(id)) !== (textBefore.get(id) ?? 'silent'))
            faults.push(`${id} reads ${key}`)
        // What states something out of the ordinary (a line of a list, a brand's own plug) is not asked for while
        // nobody states it, so taking it away may permit the ordinary.
        if (LIMIT_CATALOGUE[key].onlyIfStated !== true && isFitting(overall(after)) && !wasFitting)
          faults.push(`without ${key} it goes in`)
      }
      expect(faults).toEqual([])
    }),
    { numRuns: runs(400), examples: [UPDATE_IN_THE_JOB, UPDATE_ASKED_FOR] },
  )
  expect([...turned].sort()).toEqual(RULES.flatMap((r) => r.reads.map((key) => `${r.id} ${key}`)).sort())
})

/** Of each limit the rules that need it, and those that do not look at it. */
const byLimit = <T>(of: (key: LimitKey) => T) =>
  Object.fromEntries(LIMIT_KEYS.map((key) => [key, of(key)])) as Record<LimitKey, T>
const readers = byLimit((key) => new Set(RULES.filter((r) => r.reads.includes(key)).map((r) => r.id)))
const deaf = byLimit((key) =>
  RULES.filter((r) => !r.reads.includes(key) && !r.mayRead.includes(key)).map((r) => r.id),
)

const names = (f: Finding, key: LimitKey): boolean => f.missing.some((m) => 'limit' in m && m.limit === key)
const text = (f: Finding | undefined): string => JSON.stringify(f) ?? 'silent'

const raised = (values: Partial<LimitValues>, key: LimitKey): Partial<LimitValues> => ({
  ...values,
  [key]: raise(key, { ...LIMIT_VALUES, ...values }[key]),
})

test('law: more room, power, slots, rate, lanes or plugs never make a verdict worse, and sometimes better', () => {
  const better = new Set<LimitKey>()
  fc.assert(
    fc.property(changes, limitSets, (c, values) => {
      const said = saidOf(c)
      const before = said(limits(values))
      const rankBefore = new Map<string, number>(before.map((f) => [f.rule, rankOfVerdict(f.verdict)]))
      const faults: string[] = []
      for (const key of MORE_KEYS)
        for (const { rule, verdict } of said(limits(raised(values, key)))) {
          const step = rankOfVerdict(verdict) - (rankBefore.get(rule) ?? rankOfVerdict('fits'))
          if (step > 0 && !isMoreDrawn(key, rule)) faults.push(`${rule} with more ${key}`)
          if (step < 0) better.add(key)
        }
      expect(faults).toEqual([])
    }),
    { numRuns: runs(200) },
  )
  for (const key of ['cardRoomMm', 'supply12VW', 'supplyPlugs', 'processorPowerW'] as const)
    expect(better).toContain(key)
})

test('law: taking parts out and putting the same ones back says nothing', () => {
  const fitted = [processor, board, kit, card, supply, tower, cooler]
  fc.assert(
    fc.property(fc.subarray(fitted), limitSets, (parts, values) => {
      expect(saidOf({ add: parts, removeIds: parts.map((p) => p.id) })(limits(values))).toEqual([])
    }),
  )
})

const ODD = [
  undefined,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  -1,
  0,
  1e308,
  0.5,
] as const
const oddPart = fc.tuple(part, fc.infiniteStream(fc.nat({ max: 40 }))).map(([p, dice]) => {
  const fields = Object.entries(p).map(([name, value]) => {
    const roll = dice.next().value ?? 40
    if (['kind', 'id', 'name'].includes(name) || roll >= ODD.length * 2) return [name, value]
    if (typeof value === 'number') return [name, ODD[roll % ODD.length]]
    if (typeof value !== 'object' || !('pin8' in value)) return [name, roll % 2 === 0 ? undefined : value]
    return [name, { ...value, pin8: ODD[roll % ODD.length] ?? Number.NaN }]
  })
  return Object.fromEntries(fields) as Part
})
const oddLimits = fc.array(fc.tuple(some(...LIMIT_KEYS), some(...ODD)), { maxLength: 4 }).map((odd) => {
  const numbers = odd.filter(([key, value]) => typeof LIMIT_VALUES[key] === 'number' && value !== undefined)
  const unknown = odd.filter(([, value]) => value === undefined).map(([key]) => key)
  return limits(Object.fromEntries(numbers) as Partial<LimitValues>, unknown)
})

const isSound = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : typeof value === 'object' && value !== null
      ? Object.values(value).every(isSound)
      : value !== undefined

test('law: odd data never throws, and every answer rests on sound figures or names what is missing', () => {
  let unsure = 0
  const parts = (maxLength: number) => fc.array(oddPart, { maxLength })
  fc.assert(
    fc.property(parts(6), parts(3), oddLimits, (fitted, add, of) => {
      const findings = saidOf({ add, removeIds: ['MEM-A'] }, buildOf(fitted))(of)
      const isUnsure = (f: Finding) => f.verdict === "can't tell"
      expect(findings.filter((f) => !isSound(f.values) || isUnsure(f) !== f.missing.length > 0)).toEqual([])
      unsure += findings.filter(isUnsure).length
    }),
    { numRuns: runs(500) },
  )
  expect(unsure).toBeGreaterThan(500)
})
