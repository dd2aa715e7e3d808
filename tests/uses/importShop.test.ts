import fc from 'fast-check'
import { expect, test } from 'vitest'
import { loadMachine } from '../../src/store/machines.ts'
import { listParts } from '../../src/store/parts.ts'
import { loadQuestion } from '../../src/store/questions.ts'
import { listRuns } from '../../src/store/runs.ts'
import { listShelf, shelfPricesOf } from '../../src/store/shelf.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { bytesOf, csv, filesOf, SMALL_SHOP, type Tables, withCell, withRow } from '../input/smallShop.ts'
import { runs } from '../runs.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

async function storeWith(tables: Tables) {
  const store = await temporaryStore()
  const imported = await importShop(store, filesOf(tables))
  if (!imported.ok) throw new Error(JSON.stringify(imported.problems, null, 1))
  return { store, report: imported.value }
}

test('a folder is stored as the core reads it', async () => {
  const { store, report } = await storeWith(SMALL_SHOP)
  for (const { file, added, changed, unchanged } of report.tables) {
    const rows = (SMALL_SHOP[file.replace('.csv', '')]?.length ?? 0) - 1
    expect({ file, added, changed, unchanged }).toEqual({ file, added: rows, changed: 0, unchanged: 0 })
  }
  expect(report.tables).toHaveLength(Object.keys(SMALL_SHOP).length)
  const loaded = await loadMachine(store.db, 'M-0001')
  expect(loaded?.owner).toEqual({ id: 'C1', name: 'Zoë "Zed" Ünal', email: 'zoe@example.org' })
  expect(loaded?.machine.build.card).toEqual({
    kind: 'card',
    id: 'CARD-B',
    name: 'Invented large',
    lengthMm: 267,
    plugs: { pin6: 1, pin8: 1, pin16: 0 },
    pcieGen: 4,
    pcieLanes: 16,
    boardPowerW: 200.5,
  })
  expect(loaded?.history.map((stay) => stay.part.id)).toEqual(['CPU-A', 'BRD-A', 'MEM-A', 'CARD-A', 'CARD-B'])
  expect(loaded?.machine.claims).toEqual([
    // Noon in Chicago, six hours behind UTC in January (IANA time zone database).
    { key: 'cardRoomMm', value: 290.5, source: 'measured', at: '2025-01-10T18:00:00.000Z' },
    { key: 'firmware', value: 'F5a', source: 'read', pinned: true },
    { key: 'supplyPlugs', value: { pin6: 0, pin8: 2, pin16: 0 }, source: 'entered' },
  ])
  expect(await loadQuestion(store.db, 'Q1')).toEqual({
    id: 'Q1',
    machineTag: 'M-0001',
    words: 'Can it take\na better card?',
    askedAt: '2026-03-02T18:00:00.000Z',
    wanted: [{ titleId: 'harbor', settingId: '1080-high', weight: 2 }],
    display: { widthPx: 1920, heightPx: 1080, refreshHz: 75 },
    targetFps: 60,
    budgetMinor: 25000,
    wishes: ['keep the case'],
    asks: 'what can I do',
    cameBy: 'mail',
  })
})

// By hand from the small shop: on 2025-06-01 CARD-A (gen 3) sat in a gen 3 slot; on 2026-02-01, the day of the swap,
// CARD-B (gen 4) did. Two modules of 8 GB are 16 GB in two channels; the rate is the one in the row.
test('empty columns of a run are what was fitted in its machine that day', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const memory = { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 }
  const link = { gen: 3, lanes: 16 }
  expect((await listRuns(store.db)).map(({ id, fitted }) => ({ id, fitted }))).toEqual([
    { id: 'R1', fitted: { processorId: 'CPU-A', cardId: 'CARD-A', memory, link } },
    { id: 'R2', fitted: { processorId: 'CPU-A', cardId: 'CARD-B', memory, link } },
  ])
})

// R1 without its memory_mts: the slowest of kit (3200), board (2933) and the processor's controller, which is 2666 for
// a Core i5 of the 10th generation (Intel's published specifications). R2 comes after the change: 32 GB, not 48, and
// what was read off the machine as it is now.
test('a claim about the machine as it is now says nothing about parts that have gone', async () => {
  const memory = [...(SMALL_SHOP.memory ?? []), ['MEM-B', 'Larger kit', 'DDR4', 'DIMM', '2', '16', '2400']]
  const [header = [], cpu = [], board = [], kit = [], ...cards] = SMALL_SHOP.fitted ?? []
  const fitted = [
    header,
    cpu,
    board,
    kit.with(3, '2026-02-01'),
    ['M-0001', 'MEM-B', '2026-02-01', ''],
    ...cards,
  ]
  const limits = [...(SMALL_SHOP.limits ?? []), ['M-0001', 'memory_runs_mts', '2133', 'measured', '', '']]
  const runs = (SMALL_SHOP.runs ?? []).map((row, i) => (i === 0 ? row : row.with(3, '')))
  const { store } = await storeWith({ ...SMALL_SHOP, memory, fitted, limits, runs })
  const found = (await listRuns(store.db)).map(({ fitted: { memory: m } }) => [m.rateMts, m.totalGB])
  expect(found).toEqual([
    [2666, 16],
    [2133, 32],
  ])
})

test('a run whose machine does not tell enough is one problem that names the columns to fill', async () => {
  const store = await temporaryStore()
  const tables = {
    ...SMALL_SHOP,
    memory: [
      ['part', 'name'],
      ['MEM-A', 'Unknown kit'],
    ],
  }
  const failed = await importShop(store, filesOf(tables))
  expect(failed).toMatchObject({ ok: false })
  if (failed.ok) return
  expect(failed.problems.map((p) => [p.file, p.line, p.field, p.code])).toEqual(
    [2, 3].map((line) => ['runs.csv', line, 'memory_type, memory_gb, channels', 'missing']),
  )
  expect(failed.problems[0]?.next).toContain('M-0001')
  expect(failed.problems[0]?.next).toContain('the memory as it ran')
  expect(failed.problems[0]?.next).not.toContain('link_gen')
})

// By hand from the small shop: CARD-A has a generation and no lanes, the kit a type and modules but no size.
test('what the machine tells in part is not asked for again', async () => {
  const store = await temporaryStore()
  const memory = [
    ['part', 'name', 'memory_type', 'modules', 'rate_mts'],
    ['MEM-A', 'Kit', 'DDR4', '2', '3200'],
  ]
  const cards = (SMALL_SHOP.cards ?? []).map((row, i) => (i === 1 ? row.with(5, '') : row))
  const runs = (SMALL_SHOP.runs ?? []).map((row, i) => (i === 0 ? row : row.with(3, '')))
  expect(await importShop(store, filesOf({ ...SMALL_SHOP, memory, cards, runs }))).toMatchObject({
    ok: false,
    problems: [
      {
        line: 2,
        field: 'memory_gb, link_lanes',
        next: expect.stringContaining('the generation and lanes the card runs at, such as 3 and 16'),
      },
      { line: 3, field: 'memory_gb' },
    ],
  })
})

test('a bench run without its facts is one problem that names them all', async () => {
  const store = await temporaryStore()
  const runs = (SMALL_SHOP.runs ?? []).slice(0, 2).map((row, i) => (i === 0 ? row : row.with(2, '')))
  expect(await importShop(store, filesOf({ ...SMALL_SHOP, runs }))).toMatchObject({
    ok: false,
    problems: [
      {
        field: 'processor, card, memory_type, memory_gb, channels, link_gen, link_lanes',
        next: expect.stringContaining('name the machine'),
      },
    ],
  })
})

test('a stored run keeps what it was measured with when its machine no longer tells', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const before = await listRuns(store.db)
  const tables = {
    memory: [
      ['part', 'name', 'modules'],
      ['MEM-A', 'Invented kit', ''],
    ],
    runs: SMALL_SHOP.runs ?? [],
  }
  expect(await importShop(store, filesOf(tables))).toMatchObject({
    ok: true,
    value: { tables: [{ changed: 1 }, { file: 'runs.csv', added: 0, changed: 0, unchanged: 2 }] },
  })
  expect(await listRuns(store.db)).toEqual(before)
  // On another day it is another measurement, of which nothing is known.
  const runs = [SMALL_SHOP.runs?.[0] ?? [], SMALL_SHOP.runs?.[1]?.with(1, '2025-07-01') ?? []]
  expect(await importShop(store, filesOf({ runs }))).toMatchObject({
    ok: false,
    problems: [{ field: 'memory_gb, channels' }],
  })
})

test('a corrected history reaches the runs', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  await importShop(store, filesOf(withCell('fitted', 4, 'removed_on', '2025-03-01')))
  const fitted = [SMALL_SHOP.fitted?.[0] ?? [], ['M-0001', 'CARD-B', '2025-03-01', '2026-01-31']]
  expect(await importShop(store, filesOf({ fitted, runs: SMALL_SHOP.runs ?? [] }))).toMatchObject({
    ok: true,
  })
  expect((await listRuns(store.db)).map((run) => run.fitted.cardId)).toEqual(['CARD-B', 'CARD-B'])
})

test('a bench run keeps the columns that a later file does not have', async () => {
  const bench = [
    'run',
    'run_on',
    'processor',
    'card',
    'memory_type',
    'memory_gb',
    'memory_mts',
    'channels',
    'link_gen',
    'link_lanes',
  ]
  const result = ['title', 'title_version', 'setting', 'average_fps']
  const fitted = ['B1', '2026-01-01', 'CPU-A', 'CARD-A', 'DDR4', '16', '2666', '2', '3', '16']
  const { store } = await storeWith({
    ...SMALL_SHOP,
    runs: [
      [...bench, ...result],
      [...fitted, 'harbor', '1', '1080-high', '60'],
    ],
  })
  const corrected = [
    ['run', 'run_on', ...result],
    ['B1', '2026-01-01', 'harbor', '1', '1080-high', '61'],
  ]
  expect(await importShop(store, filesOf({ runs: corrected }))).toMatchObject({
    value: { tables: [{ changed: 1 }] },
  })
  expect(await listRuns(store.db)).toMatchObject([
    { averageFps: 61, fitted: { cardId: 'CARD-A', link: { gen: 3, lanes: 16 } } },
  ])
})

test('the same folder twice changes nothing and says so', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const before = await dump(store)
  const again = await importShop(
    store,
    filesOf(SMALL_SHOP, { delimiter: ';', newline: '\n', quoteAll: true }),
  )
  if (!again.ok) throw new Error(JSON.stringify(again.problems))
  for (const { file, added, changed, unchanged } of again.value.tables) {
    const rows = (SMALL_SHOP[file.replace('.csv', '')]?.length ?? 0) - 1
    expect({ file, added, changed, unchanged }).toEqual({ file, added: 0, changed: 0, unchanged: rows })
  }
  expect(await dump(store)).toEqual(before)
})

test('a new price is stored beside the old one', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const shelf = [SMALL_SHOP.shelf?.[0] ?? [], ['S1', 'CARD-B', 'open box', '1', '179', '2026-04-01']]
  const changed = await importShop(store, filesOf({ shelf }))
  expect(changed).toEqual({
    ok: true,
    value: { tables: [{ file: 'shelf.csv', added: 0, changed: 1, unchanged: 0 }] },
  })
  expect((await listShelf(store.db)).map(({ item }) => [item.quantity, item.priceMinor])).toEqual([
    [1, 17900],
  ])
  expect(await shelfPricesOf(store.db, 'S1')).toEqual([
    { at: '2026-03-01T18:00:00.000Z', priceMinor: 19950 },
    { at: '2026-04-01T17:00:00.000Z', priceMinor: 17900 },
  ])
})

test('a column that is not there leaves what is stored; an empty cell clears it', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const cards = [
    ['part', 'name', 'length_mm'],
    ['CARD-B', 'Renamed', ''],
  ]
  expect(await importShop(store, filesOf({ cards }))).toMatchObject({
    value: { tables: [{ file: 'cards.csv', added: 0, changed: 1, unchanged: 0 }] },
  })
  const card = (await loadMachine(store.db, 'M-0001'))?.machine.build.card
  expect(card).toMatchObject({ name: 'Renamed', boardPowerW: 200.5 })
  expect(card?.lengthMm).toBeUndefined()
})

// Socket, generation, class and graphics of the model number: Intel processor numbers.
const TOLD = {
  socket: 'LGA1200',
  generation: '10th (Comet Lake)',
  processorClass: 'i7',
  integratedGraphics: false,
  readFromName: ['socket', 'generation', 'processorClass', 'integratedGraphics'],
}

test('a row whose name tells its figures is as good as the name typed on a page', async () => {
  const processors = [
    ['part', 'name', 'socket', 'cores'],
    ['CPU-A', 'i7-10700F', '', '8'],
    ['CPU-B', 'i7-10700F tray', 'LGA1151', ''],
  ]
  const { store } = await storeWith({ ...SMALL_SHOP, processors })
  const stored = await listParts(store.db)
  expect(stored.find(({ id }) => id === 'CPU-A')).toEqual({
    kind: 'processor',
    id: 'CPU-A',
    name: 'i7-10700F',
    cores: 8,
    ...TOLD,
  })
  // The row contradicts the name: it is left alone.
  expect(stored.find(({ id }) => id === 'CPU-B')).toEqual({
    kind: 'processor',
    id: 'CPU-B',
    name: 'i7-10700F tray',
    socket: 'LGA1151',
  })
  const before = await dump(store)
  expect(await importShop(store, filesOf({ processors }))).toMatchObject({
    value: { tables: [{ added: 0, changed: 0, unchanged: 2 }] },
  })
  expect(await dump(store)).toEqual(before)
})

test('a figure from a later row loses the mark; a new name is read anew', async () => {
  const first = [
    ['part', 'name'],
    ['PSU-A', 'Invented 550W 2x8pin'],
  ]
  const { store } = await storeWith({ ...SMALL_SHOP, supplies: first })
  const supplyAfter = async (...rows: string[][]) => {
    const done = await importShop(store, filesOf({ supplies: rows }))
    expect(done).toMatchObject({ ok: true })
    return (await listParts(store.db)).find(({ kind }) => kind === 'supply')
  }
  expect(await supplyAfter(...first)).toMatchObject({ ratedW: 550, readFromName: ['ratedW', 'plugs'] })
  expect(
    await supplyAfter(['part', 'name', 'rated_w'], ['PSU-A', 'Invented 550W 2x8pin', '550']),
  ).toMatchObject({ ratedW: 550, plugs: { pin8: 2 }, readFromName: ['plugs'] })
  expect(await supplyAfter(['part', 'name'], ['PSU-A', 'Invented 1x8pin'])).toEqual({
    kind: 'supply',
    id: 'PSU-A',
    name: 'Invented 1x8pin',
    ratedW: 550,
    plugs: { pin6: 0, pin8: 1, pin16: 0 },
    readFromName: ['plugs'],
  })
})

test('two parts of one kind with the same name are noted, not refused', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const cards = [
    ['part', 'name'],
    ['CARD-Z', 'INVENTED large'],
    ['CARD-Y', 'Another'],
  ]
  const memory = [
    ['part', 'name'],
    ['MEM-Z', 'Another'],
  ]
  expect(await importShop(store, filesOf({ cards, memory }))).toMatchObject({
    ok: true,
    value: { notes: ['2 parts have the same name: CARD-B and CARD-Z'] },
  })
})

test('taking a part out later changes its stay and adds none', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const changed = await importShop(store, filesOf(withCell('fitted', 3, 'removed_on', '2026-05-01')))
  expect(changed.ok && changed.value.tables.find((t) => t.file === 'fitted.csv')).toEqual({
    file: 'fitted.csv',
    added: 0,
    changed: 1,
    unchanged: 4,
  })
  expect((await loadMachine(store.db, 'M-0001'))?.machine.build.memory).toEqual([])
})

test('two equal rows are two kits, and stay two', async () => {
  const tables = withRow('fitted', 'M-0001', 'MEM-A', '2025-01-10', '')
  const { store } = await storeWith(tables)
  await importShop(store, filesOf(tables))
  expect((await loadMachine(store.db, 'M-0001'))?.machine.build.memory.map((kit) => kit.id)).toEqual([
    'MEM-A',
    'MEM-A',
  ])
})

test('two cards at once are a problem that names the row and the machine', async () => {
  const store = await temporaryStore()
  const before = await dump(store)
  const failed = await importShop(store, filesOf(withCell('fitted', 4, 'removed_on', '')))
  expect(await dump(store)).toEqual(before)
  expect(failed).toMatchObject({
    ok: false,
    problems: [{ code: 'conflict', file: 'fitted.csv', line: 6, field: 'part', got: 'CARD-B' }],
  })
})

test('one bad cell anywhere and nothing is stored', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const before = await dump(store)
  const tables = {
    ...withCell('runs', 2, 'average_fps', '12O'),
    titles: [...(SMALL_SHOP.titles ?? []), ['mill', 'New']],
  }
  expect(await importShop(store, filesOf(tables))).toMatchObject({
    ok: false,
    problems: [{ file: 'runs.csv', line: 3, field: 'average_fps', got: '12O', code: 'not a number' }],
  })
  expect(await dump(store)).toEqual(before)
})

test('another currency is refused while prices are stored', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  expect(await importShop(store, filesOf(withCell('shop', 1, 'currency', 'USD')))).toMatchObject({
    ok: false,
    problems: [{ code: 'conflict', field: 'currency', got: 'USD', allowed: 'EUR' }],
  })
})

test.each([
  ['stored', [['machine'], ['m-0001']], 2, 'M-0001 has this tag'],
  ['in the file', [['machine'], ['K-1'], ['k-1']], 3, 'K-1 has this tag'],
] as const)('a tag that differs only in case from one %s is refused', async (_, rows, line, says) => {
  const { store } = await storeWith(SMALL_SHOP)
  const before = await dump(store)
  const imported = await importShop(store, filesOf({ machines: rows }))
  expect(imported).toMatchObject({
    ok: false,
    problems: [{ code: 'duplicate', file: 'machines.csv', line, field: 'machine', got: rows.at(-1)?.[0] }],
  })
  expect(imported.ok ? '' : imported.problems[0]?.next).toContain(says)
  expect(await dump(store)).toEqual(before)
})

test.each([
  ['machines', 'machine'],
  ['questions', 'question'],
])('a row of %s named new is refused: that is the page for a new one', async (table, field) => {
  const { store } = await storeWith(SMALL_SHOP)
  expect(await importShop(store, filesOf(withCell(table, 1, field, 'New')))).toMatchObject({
    ok: false,
    problems: expect.arrayContaining([expect.objectContaining({ file: `${table}.csv`, field, got: 'New' })]),
  })
})

test('a 1% low above the average is refused, also where one of the two is stored already', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const refused = {
    ok: false,
    problems: [{ code: 'not allowed', file: 'runs.csv', line: 2, field: 'low_1pct_fps', got: '62' }],
  }
  const { runs = [] } = withCell('runs', 1, 'low_1pct_fps', '62')
  expect(await importShop(store, filesOf({ runs }))).toMatchObject(refused)
  const [header = [], first = []] = runs
  const without = [header, first].map((row) => row.filter((_, at) => header[at] !== 'low_1pct_fps'))
  const low = without.map((row, i) => (i === 1 ? row.with(7, '40') : row))
  expect(await importShop(store, filesOf({ runs: low }))).toMatchObject({
    ...refused,
    problems: [{ ...refused.problems[0], got: '48' }],
  })
})

test('names that look like commands are only names', async () => {
  const names = [
    `'; DROP TABLE customers; --`,
    '<script>alert(1)</script>',
    '=1+1',
    '🦊 Ü',
    '"',
    '%s {{x}} \\',
  ]
  const customers = [['customer', 'name'], ...names.map((name, i) => [`H${i}`, name])]
  const { store } = await storeWith({
    ...SMALL_SHOP,
    customers: [...customers, ['C1', 'Owner'], ['C2', 'Other']],
  })
  const stored = (await dump(store)).customers?.map((row) => (Array.isArray(row) ? row[1] : undefined))
  expect(stored).toEqual([...names, 'Owner', 'Other'])
})

test('3,000 rows land at once', async () => {
  const drives = [['part', 'name'], ...Array.from({ length: 3000 }, (_, i) => [`D${i}`, `Drive ${i}`])]
  const { store } = await storeWith({ ...SMALL_SHOP, drives })
  expect((await dump(store)).parts).toHaveLength(3000 + 5)
})

test('whatever bytes a file has, nothing is thrown and nothing half stored', async () => {
  const { store } = await storeWith(SMALL_SHOP)
  const before = await dump(store)
  const name = fc.constantFrom(...Object.keys(SMALL_SHOP), 'other').map((n) => `${n}.csv`)
  const cell = fc.oneof(
    fc.string(),
    fc.constantFrom('M-0001', 'CARD-A', '1', '2026-01-01', '1,5', '"', '', '\n'),
  )
  const rows = fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 4 })
  const header = fc.constantFrom(...Object.values(SMALL_SHOP).map((table) => csv(table.slice(0, 1))))
  const file = fc.oneof(
    fc.record({ name, bytes: fc.uint8Array({ maxLength: 80 }) }),
    fc.record({ name, bytes: fc.string({ unit: 'grapheme' }).map(bytesOf) }),
    fc.tuple(name, header, rows).map(([n, h, r]) => ({ name: n, bytes: bytesOf(h + csv(r)) })),
  )
  let failures = 0
  await fc.assert(
    fc.asyncProperty(fc.array(file, { minLength: 1, maxLength: 3 }), async (files) => {
      const done = await importShop(store, files)
      if (done.ok) return
      failures++
      expect(done.problems.length).toBeGreaterThan(0)
    }),
    { numRuns: runs(60) },
  )
  expect(failures).toBeGreaterThan(40)
  const after = await dump(store)
  // What failed left nothing, so every table still has at least its rows, and a whole import still goes through.
  for (const [table, stored] of Object.entries(before))
    expect(after[table]?.length).toBeGreaterThanOrEqual(stored.length)
  expect(await importShop(store, filesOf(SMALL_SHOP))).toMatchObject({ ok: true })
})
