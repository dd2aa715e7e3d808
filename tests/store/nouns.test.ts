import { expect, test } from 'vitest'
import type { Answer } from '../../src/core/answer.ts'
import type { Part } from '../../src/core/part.ts'
import type { Question } from '../../src/core/question.ts'
import { listAnswers, loadAnswer, saveAnswer } from '../../src/store/answers.ts'
import { loadHeld } from '../../src/store/counts.ts'
import { customerOf, listCustomers, upsertCustomers } from '../../src/store/customers.ts'
import { listMachines } from '../../src/store/machineSearch.ts'
import { insertMachine, loadMachine, nextTag, upsertClaims } from '../../src/store/machines.ts'
import { loadMessage, messagesOfQuestion, saveMessage } from '../../src/store/messages.ts'
import type { Store } from '../../src/store/open.ts'
import { listParts, loadParts, upsertParts } from '../../src/store/parts.ts'
import { listQuestions } from '../../src/store/questionLines.ts'
import { insertQuestion, loadQuestion, nextQuestionId } from '../../src/store/questions.ts'
import { runsOfTitles, upsertRuns } from '../../src/store/runs.ts'
import { listShelf, shelfPricesOf, upsertShelf } from '../../src/store/shelf.ts'
import { loadShop, saveShop } from '../../src/store/shop.ts'
import { listSettings, upsertSettings, upsertTitles } from '../../src/store/titles.ts'
import { dump, TAKEN_KEY, temporaryStore } from './temporaryStore.ts'

/** Invented parts, one of each kind, every figure given, so that a lost column shows. */
const PARTS: readonly Part[] = [
  {
    kind: 'processor',
    id: 'P',
    name: 'P',
    socket: 'AM4',
    generation: 'g',
    processorClass: 'c',
    cores: 6,
    limitPowerW: 88,
    integratedGraphics: false,
  },
  {
    kind: 'board',
    id: 'B',
    name: 'B',
    socket: 'AM4',
    chipset: 'B450',
    form: 'microATX',
    memoryType: 'DDR4',
    memorySlots: 4,
    memoryMaxGB: 64,
    memoryPerSlotMaxGB: 16,
    memoryRateMtsMax: 3200,
    slotPcieGen: 3,
    slotLanes: 16,
    processorPowerW: 105,
    firmwareByGeneration: { a: '1', b: '2' },
  },
  {
    kind: 'memory',
    id: 'K',
    name: 'K',
    memoryType: 'DDR4',
    form: 'DIMM',
    modules: 2,
    moduleGB: 8,
    rateMts: 3200,
  },
  {
    kind: 'card',
    id: 'C',
    name: 'C',
    lengthMm: 1,
    thicknessMm: 2,
    memoryGB: 8,
    boardPowerW: 3,
    plugs: { pin6: 1, pin8: 2, pin16: 3 },
    pcieGen: 4,
    pcieLanes: 8,
  },
  {
    kind: 'supply',
    id: 'S',
    name: 'S',
    form: 'SFX',
    ratedW: 500,
    rail12VW: 480,
    plugs: { pin6: 0, pin8: 0, pin16: 0 },
    lengthMm: 100,
  },
  {
    kind: 'case',
    id: 'H',
    name: 'H',
    boardForms: ['ATX', 'microATX'],
    supplyForms: ['ATX'],
    cardRoomMm: 300,
    coolerRoomMm: 150,
    cardSlots: 7,
  },
  { kind: 'cooler', id: 'L', name: 'L', sockets: ['AM4', 'LGA1700'], heightMm: 150, ratedW: 120 },
  { kind: 'drive', id: 'D', name: 'D', form: 'M.2', capacityGB: 1000 },
  { kind: 'fan', id: 'F', name: 'F', sizeMm: 120 },
]
const BARE: readonly Part[] = PARTS.map(
  ({ kind, id }): Part => ({ kind, id: `${id}-bare`, name: 'only a name' }),
)

async function shopFloor(): Promise<Store> {
  const store = await temporaryStore()
  await store.write(async (tx) => {
    await upsertParts(tx, [...PARTS, ...BARE])
    await upsertCustomers(tx, [
      { id: 'C1', name: 'Ärni Invented', email: 'a@example.org', phone: '1', note: 'n', language: 'en' },
      { id: 'C2', name: 'Chats Only' },
    ])
    const fitted = ['P', 'B', 'K', 'K', 'C'].map((partId) => ({
      partId,
      fittedAt: '2025-01-01T12:00:00.000Z',
    }))
    await insertMachine(tx, { tag: 'M-0009', customerId: 'C1', soldAt: '2025-01-01T12:00:00.000Z' }, fitted, [
      { key: 'cardRoomMm', value: 280, source: 'measured' },
    ])
    await insertMachine(tx, { tag: 'M-0010' }, [{ partId: 'P-bare' }], [])
    await upsertTitles(tx, [
      { id: 't', name: 'Invented Title' },
      { id: 'a', name: 'Another' },
    ])
    await upsertSettings(tx, [
      {
        id: 's',
        widthPx: 1920,
        heightPx: 1080,
        preset: 'high',
        rayTracing: true,
        frameGeneration: false,
        capFps: 60,
      },
    ])
  })
  return store
}

const QUESTION: Question = {
  id: 'Q-0001',
  machineTag: 'M-0009',
  words: 'Will it?',
  askedAt: '2026-01-01T00:00:00.000Z',
  wanted: [{ titleId: 't', settingId: 's', weight: 1 }],
  display: {},
  targetFps: 60,
  wishes: ['no used parts'],
}

test('parts of every kind come back as they went in', async () => {
  const { db } = await shopFloor()
  const back = new Map((await listParts(db)).map((part) => [part.id, part]))
  for (const part of [...PARTS, ...BARE]) expect(back.get(part.id)).toEqual(part)
  expect(await loadParts(db, ['C', 'nobody'])).toEqual([PARTS[3]])
  expect(await loadParts(db, [])).toEqual([])
})

test('a figure that its kind does not take is refused on the way in and on the way out', async () => {
  const store = await shopFloor()
  const wrong = { ...PARTS[3], lengthMm: Number.NaN } as Part
  await expect(store.write((tx) => upsertParts(tx, [wrong]))).rejects.toThrow('lengthMm')
  await store.write((tx) => tx.run(`update parts set spec = '{"lengthMm":"long"}' where id = 'C'`))
  await expect(listParts(store.db)).rejects.toThrow('lengthMm')
})

test('a machine comes with owner, history and claims; two equal kits are two', async () => {
  const { db } = await shopFloor()
  const loaded = await loadMachine(db, 'M-0009')
  expect(loaded?.owner).toEqual({ id: 'C1', name: 'Ärni Invented', email: 'a@example.org', language: 'en' })
  expect(loaded?.machine.build.memory.map((kit) => kit.id)).toEqual(['K', 'K'])
  expect(loaded?.machine.claims).toEqual([{ key: 'cardRoomMm', value: 280, source: 'measured' }])
  expect(loaded?.history).toHaveLength(5)
  const bare = await loadMachine(db, 'M-0010')
  expect(bare).toMatchObject({ machine: { build: { processor: { id: 'P-bare' } }, claims: [] } })
  expect(bare && ['owner' in bare, 'soldAt' in bare]).toEqual([false, false])
  expect(await loadMachine(db, 'M-9')).toBeUndefined()
})

test('a second word of one source replaces its first; other sources stay', async () => {
  const store = await shopFloor()
  await store.write((tx) =>
    upsertClaims(tx, [
      {
        machineTag: 'M-0009',
        claim: { key: 'cardRoomMm', value: 285, source: 'measured', note: 'tape', pinned: true },
      },
      { machineTag: 'M-0009', claim: { key: 'cardRoomMm', value: 300, source: 'entered' } },
    ]),
  )
  expect((await loadMachine(store.db, 'M-0009'))?.machine.claims).toEqual([
    { key: 'cardRoomMm', value: 300, source: 'entered' },
    { key: 'cardRoomMm', value: 285, source: 'measured', note: 'tape', pinned: true },
  ])
})

test.each([
  ['', ['M-0010', 'M-0009']],
  ['0009', ['M-0009']],
  ['äRNI', ['M-0009']],
  ['ONLY A NAME', ['M-0010']],
  ['%', []],
  ["' or 1=1", []],
])('searching machines for "%s" finds %j', async (query, tags) => {
  const { db } = await shopFloor()
  expect((await listMachines(db, query)).map((line) => line.tag)).toEqual(tags)
})

test('lines of machines name the owner and what is inside, and count questions', async () => {
  const store = await shopFloor()
  await store.write((tx) => insertQuestion(tx, QUESTION))
  expect((await listMachines(store.db))[1]).toEqual({
    tag: 'M-0009',
    soldAt: '2025-01-01T12:00:00.000Z',
    ownerName: 'Ärni Invented',
    processorName: 'P',
    cardName: 'C',
    questions: 1,
  })
})

test('the next tag and question follow the highest number', async () => {
  const empty = await temporaryStore()
  expect([await nextTag(empty.db), await nextQuestionId(empty.db)]).toEqual(['M-0001', 'Q-0001'])
  const store = await shopFloor()
  await store.write(async (tx) => {
    await insertMachine(tx, { tag: 'M-9999' }, [], [])
    await insertMachine(tx, { tag: 'Other-99999' }, [], [])
  })
  expect(await nextTag(store.db)).toBe('M-10000')
})

test('a taken tag is a fault and the old machine stays', async () => {
  const store = await shopFloor()
  const before = await dump(store)
  await expect(store.write((tx) => insertMachine(tx, { tag: 'M-0009' }, [], []))).rejects.toMatchObject({
    code: TAKEN_KEY,
  })
  expect(await dump(store)).toEqual(before)
})

test('customers come back by name, with and without an address', async () => {
  const { db } = await shopFloor()
  const [first, second] = await listCustomers(db)
  expect(second).toEqual({
    id: 'C1',
    name: 'Ärni Invented',
    email: 'a@example.org',
    phone: '1',
    note: 'n',
    language: 'en',
  })
  expect(first && customerOf(first)).toEqual({ id: 'C2', name: 'Chats Only' })
})

test('shop, settings and runs come back as they went in', async () => {
  const store = await shopFloor()
  expect(await loadShop(store.db)).toBeUndefined()
  const policy = {
    currency: 'EUR',
    supplyShare: 0.75,
    restOfMachineW: 45.5,
    supplyFullYears: 5,
    supplyLossPctPerYear: 2,
    coolingMarginC: 5,
    smallestGainPct: 4,
    runWindowDays: 300,
    priceValidDays: 7,
    ...{ salesTaxBp: 825, taxIncluded: true, taxOnWork: true, tradeInsLowerTax: true, priceStaleDays: 45 },
  }
  const shop = {
    name: 'N',
    address: 'A\nB',
    email: 'e@example.com',
    builder: 'Bo',
    locale: 'de-DE',
    timeZone: 'UTC',
    policy,
  }
  const run = {
    id: 'R',
    at: '2026-01-01T00:00:00.000Z',
    machineTag: 'M-0009',
    titleId: 't',
    titleVersion: '1',
    settingId: 's',
    averageFps: 59.5,
    low1Fps: 40,
    note: 'x',
    fitted: {
      processorId: 'P',
      cardId: 'C',
      memory: { memoryType: 'DDR5' as const, rateMts: 2666, channels: 2, totalGB: 16 },
      link: { gen: 3, lanes: 8 },
    },
  }
  const { machineTag: _, low1Fps: __, note: ___, ...bench } = { ...run, id: 'R0' }
  await store.write(async (tx) => {
    await saveShop(tx, shop)
    await saveShop(tx, shop)
    await upsertRuns(tx, [run, bench])
  })
  expect(await loadShop(store.db)).toEqual(shop)
  expect(await runsOfTitles(store.db, ['t', 'u'])).toEqual([run, bench])
  expect(await runsOfTitles(store.db, [])).toEqual([])
  expect(await listSettings(store.db)).toEqual([
    {
      id: 's',
      widthPx: 1920,
      heightPx: 1080,
      preset: 'high',
      rayTracing: true,
      frameGeneration: false,
      capFps: 60,
    },
  ])
  expect(await loadHeld(store.db)).toEqual({
    ...{ shop: true, machines: true, questions: false, shelf: false },
    ...{ runs: true, titles: true, settings: true },
  })
})

test('a price history grows with the price alone', async () => {
  const store = await shopFloor()
  const item = {
    id: 'I',
    partId: 'C',
    condition: 'used' as const,
    quantity: 2,
    priceMinor: 100,
    at: '2026-01-01T12:00:00.000Z',
  }
  for (const change of [
    {},
    { quantity: 1 },
    { priceMinor: 90 },
    { at: '2026-02-01T12:00:00.000Z', priceMinor: 90 },
  ])
    await store.write((tx) => upsertShelf(tx, [{ ...item, ...change }]))
  expect((await shelfPricesOf(store.db, 'I')).map((p) => [p.at.slice(0, 7), p.priceMinor])).toEqual([
    ['2026-01', 100],
    ['2026-01', 90],
    ['2026-02', 90],
  ])
  expect(await listShelf(store.db)).toEqual([
    {
      ...{ item: { ...item, at: '2026-02-01T12:00:00.000Z', priceMinor: 90 }, part: PARTS[3] },
      ...{ standing: 2, putAside: [] },
    },
  ])
})

test('a question comes back as it was asked', async () => {
  const store = await shopFloor()
  const full = {
    ...QUESTION,
    id: 'Q-0002',
    display: { widthPx: 2560, heightPx: 1440, refreshHz: 59.94 },
    budgetMinor: 0,
    asks: 'can I put this in' as const,
    cameBy: 'phone' as const,
    complaint: 'hot' as const,
    partInMind: {
      kind: 'card' as const,
      words: 'a "used" card; it\'s 8 GB',
      priceMinor: 12_000,
      part: { kind: 'card' as const, id: 'in mind', name: 'x', lengthMm: 322 },
    },
    plannedDisplay: { widthPx: 2560, heightPx: 1440, refreshHz: 165 },
    wanted: [
      { titleId: 't', settingId: 's', weight: 0.5 },
      { titleId: 'a', settingId: 's', weight: 2 },
    ],
  }
  await store.write(async (tx) => {
    await insertQuestion(tx, QUESTION)
    await insertQuestion(tx, full)
  })
  const asMailed = { ...QUESTION, asks: 'what can I do', cameBy: 'mail' }
  expect(await loadQuestion(store.db, 'Q-0001')).toEqual(asMailed)
  expect(await loadQuestion(store.db, 'Q-0002')).toEqual(full)
  expect(await loadQuestion(store.db, 'Q-3')).toBeUndefined()
  await expect(store.write((tx) => insertQuestion(tx, QUESTION))).rejects.toThrow('UNIQUE')
  expect((await loadQuestion(store.db, 'Q-0001'))?.wanted).toHaveLength(1)
})

// The store keeps an answer as it is and looks at nothing in it but these fields.
const answerAt = (at: string) =>
  ({
    inputs: { question: QUESTION },
    limits: {},
    ranking: { ranked: [{ id: 'x', note: '<b>"ü"</b>' }], checkFirst: [] },
    versions: { facts: 'f1', rules: 'r1', gain: 'g1', ranking: 'k1' },
    at,
  }) as unknown

test('an answer that was kept before work was ranked asks for no check and keeps its price', async () => {
  const store = await shopFloor()
  await store.write((tx) => insertQuestion(tx, QUESTION))
  const kept = answerAt('2026-01-02T00:00:00.000Z') as Answer
  const price = { lines: [], netMinor: 500, paysForItself: false }
  const lists = { ranked: [{ id: 'x', price }], withoutNumber: [], needsAFact: [{ id: 'y', price }] }
  const old = { ...kept, ranking: { ...lists, frontierIds: ['x'] } } as unknown
  const id = await store.write((tx) => saveAnswer(tx, old as Answer))
  const full = { ...price, costsNothing: false, unpriced: [] }
  expect((await loadAnswer(store.db, id))?.answer).toEqual({
    ...kept,
    ranking: {
      ranked: [{ id: 'x', price: full }],
      withoutNumber: [],
      needsAFact: [{ id: 'y', price: full }],
      frontierIds: ['x'],
      checkFirst: [],
    },
  })
})

test('answers are kept as they were, and a draft is written once an answer', async () => {
  const store = await shopFloor()
  await store.write((tx) => insertQuestion(tx, QUESTION))
  expect(await listQuestions(store.db)).toMatchObject([
    { id: 'Q-0001', customerName: 'Ärni Invented', drafted: false },
  ])
  const [first, second] = ['2026-01-02T00:00:00.000Z', '2026-01-03T00:00:00.000Z'].map(
    (at) => answerAt(at) as Answer,
  )
  if (first === undefined || second === undefined) throw new Error('two answers')
  const one = await store.write((tx) => saveAnswer(tx, first))
  const two = await store.write((tx) => saveAnswer(tx, second))
  expect((await loadAnswer(store.db, one))?.answer).toEqual(first)
  expect((await listAnswers(store.db, 'Q-0001')).map((a) => [a.id, a.at])).toEqual([
    [two, second.at],
    [one, first.at],
  ])
  for (const id of ['0', '-1', '1 or 1=1', '', '1e3', '99'])
    expect(await loadAnswer(store.db, id)).toBeUndefined()

  const draft = {
    kind: 'answer' as const,
    questionId: 'Q-0001',
    answerId: one,
    machineTag: 'M-0009',
    subject: 's',
    html: '<p>',
    text: 't',
    edits: { greeting: 'Hi' },
  }
  const id = await store.write((tx) => saveMessage(tx, draft, '2026-01-04T00:00:00.000Z'))
  const again = await store.write((tx) =>
    saveMessage(tx, { ...draft, subject: 's2', edits: {} }, '2026-01-05T00:00:00.000Z'),
  )
  expect(again).toBe(id)
  expect(await loadMessage(store.db, id)).toEqual({
    ...draft,
    id,
    subject: 's2',
    edits: {},
    status: 'drafted',
    createdAt: '2026-01-04T00:00:00.000Z',
    updatedAt: '2026-01-05T00:00:00.000Z',
  })
  expect(await messagesOfQuestion(store.db, 'Q-0001')).toHaveLength(1)
  expect(await listQuestions(store.db)).toMatchObject([{ answerId: two, drafted: true }])
  expect(await loadMessage(store.db, 'x')).toBeUndefined()
})
