import { expect, test } from 'vitest'
import type { Build } from '../../src/core/build.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import { judge } from '../../src/core/fit/rule.ts'
import { RULES } from '../../src/core/fit/rules.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { Part } from '../../src/core/part.ts'
import { FINDING_WORDS } from '../../src/words/en/findings.ts'
import { SPEC_WORDS } from '../../src/words/en/specs.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { sayFinding } from '../../src/words/findings.ts'
import {
  board,
  card,
  change,
  cooler,
  kit,
  limits,
  machine,
  processor,
  says,
  situation,
  supply,
  tower,
} from '../core/fit/bench.ts'
import { COOLING_ASKS, COOLING_SAYINGS } from './coolingSayings.ts'
import { FIT_SAYINGS } from './fitSayings.ts'
import { LARGE_CARD, POWER_SAYINGS } from './powerSayings.ts'
import { STORAGE_ASKS, STORAGE_SAYINGS } from './storageSayings.ts'
import { SYSTEM_SAYINGS } from './systemSayings.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
const lookup = {
  partName: (id: string) => `part ${id}`,
  minutes: (work: string) => (work === 'firmware update' ? 20 : undefined),
}
const say = (finding: Finding) => sayFinding(finding, figures, lookup)
/** Hard spaces join a figure and its unit; plain ones read better here. */
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ')

const newer: Part = { ...processor, id: 'CPU-NEW', name: 'New processor', generation: '11th (Rocket Lake)' }
const newCard = { ...card, id: 'CARD-NEW', name: 'New card' }
const newKit = { ...kit, id: 'MEM-NEW', name: 'New kit' }
const newSupply = { ...supply, id: 'PSU-NEW', name: 'New supply' }
const newCooler = { ...cooler, id: 'COOL-NEW', name: 'New cooler' }
const newBoard = { ...board, id: 'BRD-NEW', name: 'New board', socket: 'LGA1700' }
const hungry = { ...newCard, boardPowerW: 300 }
const threePlugs = { ...newCard, plugs: { pin6: 0, pin8: 3, pin16: 0 } }

type Ask = {
  readonly add?: readonly Part[]
  readonly out?: readonly string[]
  readonly work?: readonly string[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly doubt?: string
  readonly own?: boolean
  readonly makesRoom?: true
  /** What the machine has instead of the bench's own parts. */
  readonly had?: Partial<Build>
}
const found = (id: RuleId, ask: Ask): Finding => {
  const before =
    ask.own === true ? { ...machine, processor: { ...processor, integratedGraphics: true } } : machine
  const f = says(id, {
    add: ask.add ?? [],
    out: ask.out ?? [],
    work: ask.work ?? [],
    makesRoom: ask.makesRoom,
    before: { ...before, ...ask.had },
    limits: limits(ask.at, ask.not, ask.doubt),
  })
  if (f === undefined) throw new Error(`${id} is silent`)
  return f
}

/** The owner's sentences as people read them, one for each rule and verdict it can give itself. */
const SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  ...FIT_SAYINGS,
  ...SYSTEM_SAYINGS,
  ...POWER_SAYINGS,
  ...STORAGE_SAYINGS,
  ['processor.socket', 'fits', { add: [newer] }, 'It goes into your board as it is.'],
  [
    'processor.socket',
    'does not fit',
    { add: [newer], at: { socket: 'AM4' } },
    'It needs another socket: LGA1200, and your board has AM4.',
  ],
  ['processor.generation', 'fits', { add: [newer] }, "Your board's H470 chipset takes its generation."],
  [
    'processor.generation',
    'does not fit',
    { add: [newer], at: { generationSupport: 'not supported', chipset: 'B460' }, not: ['firmwareNeeded'] },
    'The B460 chipset of your board does not take that generation, whatever the socket.',
  ],
  [
    'processor.firmware',
    'fits',
    { add: [newer] },
    "Your board's firmware runs it: it needs 1.20, and your board has 1.60.",
  ],
  [
    'processor.firmware',
    'fits after work',
    { add: [newer], at: { firmwareNeeded: '1.80' } },
    'The board needs newer firmware first: version 1.80 or later; it has 1.60.',
  ],
  [
    'processor.boardPower',
    'fits',
    { add: [newer] },
    'Your board can feed it: it takes up to 90 W, and the board gives 125 W.',
  ],
  [
    'processor.boardPower',
    'fits slower',
    { add: [newer], at: { processorPowerW: 65 } },
    'It works, held to 65 W; at full speed it would take 90 W.',
  ],
  [
    'processor.picture',
    'fits',
    { out: ['CARD-OLD'], own: true },
    'It has graphics of its own, so your screen works without a card.',
  ],
  [
    'processor.picture',
    'does not fit',
    { out: ['CARD-OLD'] },
    'It has no graphics of its own, so without a card your screen stays dark.',
  ],
  ['memory.generation', 'fits', { add: [newKit] }, 'It is DDR4, as your board takes.'],
  [
    'memory.generation',
    'does not fit',
    { add: [newKit], at: { memoryType: 'DDR5' } },
    'It is DDR4, and your board takes DDR5: one does not work in the other.',
  ],
  ['memory.form', 'fits', { add: [newKit] }, 'The modules have the length your board takes.'],
  [
    'memory.form',
    'does not fit',
    { add: [{ ...newKit, form: 'SO-DIMM' }] },
    'These are laptop modules, and your board takes the long ones.',
  ],
  ['memory.slots', 'fits', { add: [newKit] }, 'There is a slot for each module: 4 of 4 are then in use.'],
  [
    'memory.slots',
    'does not fit',
    { add: [newKit], at: { memorySlots: 2 } },
    'That makes 4 modules, and your board has 2 slots.',
  ],
  ['memory.total', 'fits', { add: [newKit] }, 'That makes 32 GB, and your board takes up to 128 GB.'],
  [
    'memory.total',
    'does not fit',
    { add: [newKit], at: { memoryMaxGB: 16 } },
    'That makes 32 GB, and your board stops at 16 GB.',
  ],
  ['memory.rate', 'fits', { add: [newKit] }, 'The memory runs at its rated 2666 MT/s.'],
  [
    'memory.rate',
    'fits slower',
    { add: [{ ...newKit, rateMts: 3200 }], out: ['MEM-OLD'] },
    'The memory works, at 2666 MT/s; it is rated 3200 MT/s.',
  ],
  [
    'memory.channels',
    'fits',
    { add: [newKit] },
    "The modules use both of your processor's channels to memory.",
  ],
  [
    'memory.channels',
    'fits slower',
    { add: [{ ...newKit, modules: 1 }], out: ['MEM-OLD'] },
    'With one module your processor uses only one of its two channels.',
  ],
  ['graphics.link', 'fits', { add: [newCard] }, 'Your slot gives this card all the data road it has.'],
  [
    'graphics.link',
    'fits slower',
    { add: [{ ...newCard, pcieGen: 4, pcieLanes: 8 }] },
    'Your slot carries less data than this card could use: 7.9 GB/s of 15.8 GB/s.',
  ],
  ['graphics.length', 'fits', { add: [newCard] }, 'It is 200 mm long, and your case has 300 mm.'],
  [
    'graphics.length',
    'does not fit',
    { add: [newCard], at: { cardRoomMm: 188, cardRoomFreeMm: 188 } },
    'It is 200 mm long, 12 mm too long for your case.',
  ],
  [
    'power.load',
    'fits',
    { add: [newCard] },
    'With it your machine takes 260 W at full load, of the 400 W we count on.',
  ],
  [
    'power.load',
    'fits after work',
    { add: [hungry] },
    'With it your machine takes 440 W, more than the 400 W we count on.',
  ],
  ['power.plugs', 'fits', { add: [newCard] }, 'Your supply has the plugs for it: it needs 1 × 8-pin.'],
  [
    'power.plugs',
    'fits after work',
    { add: [threePlugs] },
    'It needs 3 × 8-pin, and your supply has 2 × 8-pin.',
  ],
  ...COOLING_SAYINGS,
  ['case.board', 'fits', { add: [newBoard] }, 'The board is microATX, and the case takes that.'],
  [
    'case.board',
    'does not fit',
    { add: [{ ...newBoard, form: 'ATX' }] },
    'The board is ATX, and the case takes microATX, Mini-ITX.',
  ],
  ['case.supply', 'fits', { add: [newSupply] }, 'The supply is of the ATX kind, and the case takes that.'],
  [
    'case.supply',
    'does not fit',
    { add: [{ ...newSupply, form: 'TFX' }] },
    'The supply is of the TFX kind, and the case takes ATX.',
  ],
  [
    'case.supply',
    'does not fit',
    { add: [newSupply], at: { caseSupplyMounting: 'own' } },
    'The opening of your case is made for its maker’s own supply.',
  ],
  [
    'case.supply',
    'fits after work',
    { add: [{ ...newSupply, form: 'SFX' }] },
    'The supply is of the small SFX kind and needs a bracket in your case.',
  ],
  [
    'case.supplyDepth',
    'fits',
    { add: [{ ...newSupply, lengthMm: 160 }] },
    'The supply is 160 mm deep, and your case has room for 200 mm.',
  ],
  [
    'case.supplyDepth',
    'does not fit',
    { add: [{ ...newSupply, lengthMm: 210 }] },
    'The supply is 210 mm deep, 10 mm too deep for your case.',
  ],
  [
    'office.supplyPlug',
    'fits',
    { add: [newSupply], at: { brandBoard: 'yes' } },
    "We looked at your board's main plug: it is the standard one.",
  ],
  [
    'office.supplyPlug',
    'does not fit',
    { add: [newSupply], at: { boardSupplyPlug: 'own' } },
    'Your board has a main plug of its own, and no supply of ours has that.',
  ],
  [
    'office.boardPlug',
    'fits',
    { add: [newBoard], at: { brandCase: 'yes' } },
    "We looked at your supply's main plug: it is the standard one.",
  ],
  [
    'office.boardPlug',
    'fits after work',
    { add: [newBoard], at: { supplyBoardPlug: 'own' } },
    'Your supply has a main plug of its own, which the new board does not take.',
  ],
  [
    'office.mounting',
    'fits',
    { add: [newBoard], at: { brandCase: 'yes' } },
    'We looked: posts and back opening follow the standard.',
  ],
  [
    'office.mounting',
    'does not fit',
    { add: [newBoard], at: { caseBoardMounting: 'own' } },
    'Your case has posts of its own and takes no standard board.',
  ],
  [
    'office.mounting',
    'does not fit',
    { add: [{ ...tower, id: 'CASE-NEW' }], at: { boardShape: 'own' } },
    'Your board has holes of its own and does not go into a standard case.',
  ],
  [
    'office.slotPower',
    'fits',
    { add: [newCard], at: { brandBoard: 'yes' } },
    'The card takes up to 75 W from the slot, and yours gives 75 W.',
  ],
  [
    'office.slotPower',
    'does not fit',
    { add: [newCard], at: { slotPowerW: 35 } },
    'The card takes up to 75 W from the slot, and yours gives 35 W.',
  ],
  [
    'office.firmwareList',
    'fits',
    { add: [newer], at: { firmwareAllowList: 'yes' } },
    'The firmware of this PC takes it.',
  ],
  [
    'work.memoryProfile',
    'fits',
    { work: ['memory profile on'], at: { boardRateMts: 3600 } },
    'With its profile on, your memory can run at its rated 2666 MT/s.',
  ],
  [
    'work.memoryProfile',
    'fits slower',
    {
      work: ['memory profile on'],
      had: { memory: [{ ...kit, rateMts: 3200 }] },
      at: { memoryOverclock: 'no' },
    },
    'With its profile on, your memory runs at 2666 MT/s; it is rated 3200 MT/s.',
  ],
  [
    'work.firmware',
    'fits',
    {
      work: ['firmware update'],
      had: {
        processor: { ...processor, generation: 'Ryzen 1000 (Zen)' },
        board: { ...board, lastFirmwareByGeneration: { 'Ryzen 1000 (Zen)': '5.80' } },
      },
    },
    'Your processor runs with firmware up to 5.80, and we stop there.',
  ],
]

test.each(SAYINGS)('%s, %s', (id, verdict, ask, owner) => {
  const f = found(id, ask)
  expect(f.verdict).toBe(verdict)
  expect(plain(say(f).owner)).toBe(owner)
})

test('every rule and every verdict it can give has been said above', () => {
  const saidOnes = new Set(SAYINGS.map(([id, verdict]) => `${id}: ${verdict}`))
  const possible = RULES.flatMap((r) => r.verdicts.map((v) => `${r.id}: ${v}`))
  expect([...saidOnes].sort()).toEqual(possible.sort())
  expect(Object.keys(FINDING_WORDS).sort()).toEqual(RULES.map((r) => r.id).sort())
})

const strong = { ...newer, limitPowerW: 250 }
const wide = { ...newCard, pcieLanes: 16, wantsLargeBar: true }
const TOUCHING: Readonly<Record<string, Ask>> = {
  ...COOLING_ASKS,
  ...STORAGE_ASKS,
  'processor.update': { add: [newer], work: ['firmware update'] },
  'processor.plug': { add: [strong], at: { processorPowerW: 300 } },
  'power.plug16': LARGE_CARD,
  'power.peaks': LARGE_CARD,
  'graphics.sharing': { add: [wide], at: { slotLanesShared: 8 } },
  'graphics.largeBar': { add: [wide] },
  processor: { add: [newer] },
  memory: { add: [newKit] },
  graphics: { add: [newCard] },
  power: { add: [newCard] },
  cooling: { add: [newCooler] },
  case: { add: [newBoard, newSupply] },
  work: { work: ['memory profile on'] },
  system: { work: ['system upgrade'] },
  'office.supplyPlug': { add: [newSupply] },
  'office.boardPlug': { add: [newBoard] },
  'office.mounting': { add: [newBoard] },
  'office.slotPower': { add: [newCard] },
  'office.firmwareList': { add: [newCard] },
}
const touching = (id: RuleId): Ask => TOUCHING[id] ?? TOUCHING[id.split('.')[0] ?? ''] ?? {}

const missingLimits = RULES.flatMap((r) => r.reads.map((key) => [r.id, key] as const))
test.each(missingLimits)('%s says what is missing and how to find it out: %s', (id, key) => {
  const support =
    id === 'processor.firmware' || id === 'processor.update'
      ? ({ generationSupport: 'firmware update' } as const)
      : {}
  const ask = touching(id)
  const f = found(id, { ...ask, at: { ...ask.at, ...support }, not: [key] })
  expect(f.verdict).toBe("can't tell")
  const text = say(f)
  expect(text.owner).toMatch(/know|measured|nobody|does not say|may have|may be|start only/)
  expect(text.next?.length).toBeGreaterThan(15)
  expect(text.builder).toContain('not known: ')
})

test('words.md: the length of a case that nobody measured', () => {
  const text = say(found('graphics.length', { add: [{ ...newCard, lengthMm: 267 }], not: ['cardRoomMm'] }))
  expect(plain(text.owner)).toBe('It is 267 mm long, and we never measured the free length in your case.')
  expect(text.next).toBe(
    'Measure from the metal plate at the back of the slots to the first thing in the way, in mm.',
  )
})

test('a figure missing from a data sheet is the shop’s homework; the builder reads which one', () => {
  const text = say(found('graphics.length', { add: [{ ...newCard, lengthMm: undefined }] }))
  expect(text.owner).toBe('We have not looked up all its figures yet.')
  expect(text.next).toBe('We do that before we promise anything.')
  expect(text.builder).toContain('not known: its length (New card)')
})

test('a missing figure of another part names that part, and where it stands is for the builder', () => {
  const missing = [{ spec: 'limitPowerW', partId: 'P-1', partName: 'Quarto 4C' }]
  const text = say({
    ...found('power.load', { add: [newCard], not: ['supply12VW'] }),
    missing,
  })
  expect(text.owner).toBe('We have not looked up all figures of Quarto 4C yet.')
  expect(text.next).toBe('We do that before we promise anything.')
  expect(text.builder).toMatch(
    /not known: its power limit \(Quarto 4C\); Its data sheet gives it as turbo power/,
  )
})

test('where a limit is missing too, the owner is asked for the limit only', () => {
  const f = found('power.load', { add: [newCard], not: ['supply12VW'] })
  const text = say({
    ...f,
    missing: [...f.missing, { spec: 'boardPowerW', partId: 'CARD-NEW', partName: 'New card' }],
  })
  expect(text.next).toMatch(/label.*12 V.*The rest we look up ourselves\.$/)
  expect(text.next).not.toContain('data sheet')
})

test('a lower bound that was enough is named to the builder', () => {
  const f = found('graphics.length', { add: [newCard] })
  expect(say({ ...f, atLeast: ['cardRoomMm'] }).builder).toContain('at least, not measured: Room for a card')
})

test('a part that is not on record is asked for', () => {
  const { processor: _, ...before } = machine
  const f = says('power.load', { add: [newCard], before })
  if (f === undefined) throw new Error('silent')
  expect(say(f).owner).toBe('We do not know which processor is in your machine.')
  expect(say(f).next).toBe('We look inside, or you send a photo of the processor.')
})

test('a doubtful row says to whom we turn, and the builder reads the doubt', () => {
  const text = say(
    found('processor.generation', {
      add: [newer],
      at: { generationSupport: 'board by board', chipset: 'A320' },
      not: ['firmwareNeeded'],
    }),
  )
  expect(text.owner).toBe('Some boards with the A320 chipset take it and some do not.')
  expect(text.next).toBe("We read your board's own list before we promise anything.")
  expect(text.builder).toContain("check: 11th (Rocket Lake) on A320: the board maker's own list decides")
})

test('a chipset without a name is still a chipset', () => {
  const f = found('processor.generation', { add: [newer], not: ['chipset'] })
  expect(say(f).owner).toBe("Your board's chipset takes its generation.")
})

test('firmware work names its minutes where the shop has them', () => {
  const f = found('processor.firmware', { add: [newer], at: { firmwareNeeded: '1.80' } })
  expect(plain(say(f).next)).toBe('We do that in 20 minutes.')
  expect(sayFinding(f, figures, { ...lookup, minutes: () => undefined }).next).toBe(
    'We do that before it goes in.',
  )
})

test.each([
  { rates: [3200, 2666, 2666], why: 'Your processor sets that rate, and your board allows no more.' },
  { rates: [3200, 3200, 2933], why: 'Your board sets that rate.' },
] as const)(
  'what sets the memory rate of $rates is said',
  ({ rates: [rateMts, controllerRateMts, boardRateMts], why }) => {
    const f = found('memory.rate', {
      add: [{ ...newKit, rateMts }],
      out: ['MEM-OLD'],
      at: { controllerRateMts, boardRateMts },
    })
    expect(plain(say(f).next)).toBe(why)
  },
)

test('four modules stay at the rated figure, and what a profile might do is said', () => {
  const f = found('memory.rate', {
    add: [{ ...newKit, modules: 4, rateMts: 3200 }],
    out: ['MEM-OLD'],
    at: { controllerRateMts: 2666, boardRateMts: 3200, memoryOverclock: 'yes' },
  })
  expect(f.values.runsMts).toBe(2666)
  expect(plain(say(f).next)).toBe(
    'Your processor is rated for that. Your board may run it at 3200 MT/s: that is overclocking, and never sure.',
  )
})

test('an older, slower kit is named as what sets the rate', () => {
  const f = found('memory.rate', {
    add: [{ ...newKit, rateMts: 3200 }],
    at: { controllerRateMts: 3200, boardRateMts: 3200 },
  })
  expect(say(f).next).toBe('Its slowest module sets that rate.')
})

/** Everything the tables can say: the sayings above, and each rule with each limit and each figure missing. */
function everything(): Finding[] {
  const kinds: readonly Part[] = [
    newer,
    newKit,
    newCard,
    newSupply,
    newCooler,
    newBoard,
    { ...tower, id: 'CASE-NEW' },
  ]
  const names = [...new Set(kinds.flatMap((p) => Object.keys(p)))].filter(
    (n) => !['kind', 'id', 'name'].includes(n),
  )
  const bare = names.flatMap((name) => {
    const strip = (p: Part) => Object.fromEntries(Object.entries(p).filter(([n]) => n !== name)) as Part
    const s = situation(change(kinds.map(strip)))
    return RULES.map((r) => judge(r, s, limits())).filter((f) => f !== undefined)
  })
  const unread = missingLimits.flatMap(([id, key]) => {
    const at = { generationSupport: 'firmware update' } as const
    const ask = { ...touching(id), at: { ...touching(id).at, ...at } }
    return [found(id, { ...ask, not: [key] }), found(id, { ...ask, not: [key], doubt: 'see the page' })]
  })
  return [...SAYINGS.map(([id, , ask]) => found(id, ask)), ...bare, ...unread]
}

const sentencesOf = (text: string): string[] => text.split(/(?<=[.!?])\s+(?=[A-Z"])/)
const wordsOf = (sentence: string): number =>
  sentence.split(/[\s\u00a0]+/).filter((w) => /[\p{L}\d]/u.test(w)).length

// words.md section 1, after ISO 24495-1 (plain language): mean 13 words or fewer, none over 22.
test('no sentence has more than 22 words, and the mean is 13 or fewer', () => {
  const texts = new Set(
    everything()
      .flatMap((f) => [say(f).owner, say(f).next ?? ''])
      .filter((t) => t !== ''),
  )
  const sentences = [...texts].flatMap(sentencesOf)
  expect(sentences.filter((s) => wordsOf(s) > 22)).toEqual([])
  const mean = sentences.reduce((sum, s) => sum + wordsOf(s), 0) / sentences.length
  expect(sentences.length).toBeGreaterThan(60)
  expect(mean).toBeLessThanOrEqual(13)
})

test('nothing is left unfilled, owners get whole sentences, and builders a line', () => {
  for (const f of everything()) {
    const { owner, next, builder } = say(f)
    const all = `${owner} ${next ?? ''} ${builder}`
    expect(all, f.rule).not.toMatch(/undefined|NaN|null|\[object|[{}]|Infinity/)
    expect(owner, f.rule).toMatch(/^[A-Z].*\.$/)
    if (next !== undefined) expect(next, f.rule).toMatch(/^[A-Z].*\.$/)
    expect(builder, f.rule).not.toMatch(/\.$/)
  }
})

// words.md sections 1 and 11: words we do not use.
test('no mood, no pressure, no letters for parts', () => {
  const text = everything()
    .flatMap((f) => [say(f).owner, say(f).next ?? ''])
    .join(' ')
  expect(text).not.toMatch(
    /compatible|supported|unfortunately|should fit|probably|bottleneck|MHz|\bGPU\b|\bCPU\b|\bPSU\b|!/i,
  )
})

test('every figure that a rule misses has words of its own', () => {
  const missed = everything().flatMap((f) => f.missing.flatMap((m) => ('spec' in m ? [m.spec] : [])))
  expect(missed.length).toBeGreaterThan(20)
  expect(missed.filter((name) => !(name in SPEC_WORDS))).toEqual([])
})

test('a finding of earlier rules is named as such', () => {
  const f = found('graphics.length', { add: [newCard] })
  // A kept answer may hold a verdict that this edition of the rules does not give any more.
  expect(say({ ...f, verdict: 'fits slower' })).toMatchObject({
    owner: 'An earlier edition of our rules said so.',
    builder: 'graphics.length: fits slower, by an earlier edition of the rules',
  })
})
