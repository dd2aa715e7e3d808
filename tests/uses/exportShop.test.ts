import fc from 'fast-check'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { sayProblem } from '../../src/problem.ts'
import { addFitted } from '../../src/store/fitted.ts'
import type { Store } from '../../src/store/open.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { describePart } from '../../src/uses/describePart.ts'
import { exportShop, exportTable } from '../../src/uses/exportShop.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { tablesOf } from '../demo/tables.ts'
import { filesOf, SMALL_SHOP, type Tables } from '../input/smallShop.ts'
import { runs } from '../runs.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const AT = '2026-11-24T15:04:05.678Z'

const exported = async (store: Store) =>
  (await exportShop(store)).map(({ name, text }) => ({
    name: `${name}.csv`,
    bytes: new TextEncoder().encode(text),
  }))

async function importInto(store: Store, files: Parameters<typeof importShop>[1]) {
  const imported = await importShop(store, files, AT)
  if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
  return imported.value.tables
}

/** Importing what was exported changes no row of the database, and makes the same shop in an empty one. */
async function expectRoundTrip(store: Store): Promise<void> {
  const before = await dump(store)
  const files = await exported(store)
  const again = await importInto(store, files)
  expect(again.filter(({ added, changed }) => added + changed > 0)).toEqual([])
  expect(await dump(store)).toEqual(before)
  const other = await temporaryStore()
  await importInto(other, files)
  expect(await exported(other)).toEqual(files)
}

test('the demo shop comes back as it was', async () => {
  const store = await temporaryStore()
  await importInto(store, await tablesOf('demo-shop'))
  await expectRoundTrip(store)
})

test('so does the small shop, in every row', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  await expectRoundTrip(store)
  expect((await exportShop(store)).map(({ name, rows }) => [name, rows])).toEqual(
    (await importInto(store, filesOf(SMALL_SHOP))).map(({ file, unchanged }) => [
      file.replace('.csv', ''),
      unchanged,
    ]),
  )
})

// OWASP, CSV Injection (the signs), and what our own guard could trip over: apostrophes, quotes, delimiters, lines.
const HOSTILE = [
  '=1+1',
  '=HYPERLINK("http://example.com";"x")',
  '+49 555 0100',
  '-2+3',
  '@SUM(A1)',
  "'=already guarded",
  "''-twice",
  "'plain apostrophe",
  '＝full width',
  'a "quoted", cell; with\ttab',
  '-5',
]

test('what looks like a formula is guarded in the file and comes back as it was typed', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  for (const [n, text] of HOSTILE.entries()) {
    const name = text.replaceAll('\t', ' ')
    const added = await addMachine(
      store,
      {
        tag: `H-${n}`,
        ownerName: name,
        ownerEmail: `h${n}@example.com`,
        note: `${text}\n=2`,
        parts: [{ kind: 'card', name }],
        claims: [{ key: 'firmware', value: name, source: 'entered', note: text }],
      },
      AT,
    )
    expect(added.ok, text).toBe(true)
    const asked = await takeQuestion(
      store,
      {
        machineTag: `H-${n}`,
        words: text,
        wanted: [{ titleId: 'harbor', settingId: '1080-high', weight: 0.25 }],
        display: { widthPx: 1920, refreshHz: 59.94 },
        targetFps: 60,
        wishes: [],
        partInMind: { kind: 'card', words: name, priceMinor: 12_345 },
        plannedDisplay: { heightPx: 1440 },
      },
      AT,
    )
    expect(asked.ok, text).toBe(true)
  }
  await expectRoundTrip(store)
  for (const { name, text } of await exportShop(store)) {
    const { data } = Papa.parse<string[]>(text.slice(1).trimEnd(), { newline: '\r\n' })
    const cells = data.slice(1).flat()
    expect(
      cells.filter((cell) => /^\s*[=+\-@＝＋－＠\t\r]/.test(cell)),
      name,
    ).toEqual([])
  }
  const customers = (await exportShop(store)).find(({ name }) => name === 'customers')?.text ?? ''
  expect(customers).toContain(`,'+49 555 0100,`)
  expect(customers).toContain(`,'@SUM(A1),`)
})

test('numbers stay numbers, and an instant that is no noon keeps its time', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  await recordLimit(store, 'M-0001', { key: 'coolerRoomMm', value: 160.5, source: 'measured' }, AT)
  const { data } = Papa.parse<string[]>((await exportTable(store, 'limits').then(textOf)).slice(1))
  expect(data.find((row) => row[1] === 'cooler_room_mm')).toEqual([
    ...['M-0001', 'cooler_room_mm', '160.5', 'measured', AT, '', 'no'],
  ])
  // Noon in Chicago is a day again.
  expect(data.find((row) => row[1] === 'card_room_mm')?.[4]).toBe('2025-01-10')
  await expectRoundTrip(store)
})

const textOf = (result: Awaited<ReturnType<typeof exportTable>>): string => {
  if (!result.ok) throw new Error(result.problems.map(sayProblem).join('\n'))
  return result.value.text
}

test('a table without rows is its header; an unknown one is named', async () => {
  const store = await temporaryStore()
  expect(textOf(await exportTable(store, 'titles'))).toBe(
    '\ufefftitle,name,versions,memory_gb,graphics_memory_gb,cap_fps\r\n',
  )
  expect(await exportShop(store)).toEqual([])
  expect(await exportTable(store, '../shop')).toMatchObject({
    ok: false,
    problems: [{ code: 'not found', field: 'table', got: '../shop.csv' }],
  })
})

test('a figure from a data sheet and one from a name stay what they are', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  const named = { kind: 'processor', name: 'i5-10400F' } as const
  await addMachine(store, { tag: 'N-1', parts: [named], claims: [] }, AT)
  await expectRoundTrip(store)
  const processors = textOf(await exportTable(store, 'processors'))
  expect(processors).toContain('i5-10400F,,,,,,,,\r\n')
})

test('a figure that was taken out although the name tells it is read from the name again, as by every import', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  await describePart(store, { kind: 'memory', id: 'MEM-A', name: '2x8 GB DDR4-3200', modules: 2 }, AT)
  const again = await importInto(store, await exported(store))
  expect(again.filter(({ changed }) => changed > 0).map(({ file }) => file)).toEqual(['memory.csv'])
  await expectRoundTrip(store)
})

test('two equal kits that came in on one day, at two visits, stay two', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  for (const fittedAt of ['2026-06-01T15:00:00.000Z', '2026-06-01T16:00:00.000Z'])
    await store.write((tx) => addFitted(tx, [{ machineTag: 'M-0001', partId: 'MEM-A', fittedAt }]))
  await expectRoundTrip(store)
})

test('two equal parts fitted at different hours of a day stay two', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  const rows: Tables = {
    fitted: [
      ['machine', 'part', 'fitted_on', 'removed_on'],
      ['M-0001', 'MEM-A', '2026-05-01T15:00:00Z', '2026-05-02'],
      ['M-0001', 'MEM-A', '2026-05-01T16:00:00Z', ''],
    ],
  }
  await importInto(store, filesOf(rows))
  await expectRoundTrip(store)
})

const anyText = fc
  .oneof(
    fc.string({ unit: 'grapheme', maxLength: 40 }),
    fc
      .tuple(fc.constantFrom("'", "''", '=', '-', '@', ' =', '"', ';', '\n'), fc.string({ maxLength: 20 }))
      .map(([start, rest]) => `${start}${rest}`),
  )
  .map((text) => text.replaceAll(/[^\P{Cc}\n\t]/gu, '').trim())
  .filter((text) => text !== '')

test('any note comes back as it was', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  await fc.assert(
    fc.asyncProperty(anyText, async (note) => {
      const claim = { key: 'cardRoomMm', value: 301, source: 'entered', note } as const
      const kept = await recordLimit(store, 'M-0001', claim, AT)
      expect(kept.ok).toBe(true)
      const [limits] = await importInto(store, [
        { name: 'limits.csv', bytes: new TextEncoder().encode(textOf(await exportTable(store, 'limits'))) },
      ])
      expect(limits).toMatchObject({ added: 0, changed: 0 })
    }),
    { numRuns: runs(40) },
  )
})

test('no price is lost: earlier ones of the shelf, of trade-ins and of findable parts come back too', async () => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  const [, first = []] = SMALL_SHOP.shelf ?? []
  const item = String(first[0])
  const part = String(first[1])
  const tables: Tables = {
    shelf_prices: [
      ['item', 'price', 'priced_on'],
      [item, '99.00', '2026-01-02'],
      [item, '97.50', '2026-02-03'],
    ],
    trade_ins: [
      ['part', 'credit', 'priced_on'],
      [part, '20.00', '2025-01-02'],
      [part, '15.00', '2026-10-11'],
    ],
    findable: [
      [
        'findable',
        'part',
        'condition',
        'price_low',
        'price_high',
        'seen_on',
        'warranty_months',
        'place',
        'note',
      ],
      ['F-0001', part, 'used untested', '80', '100', '2026-11-02', '', 'the Saturday market', 'one of three'],
    ],
  }
  expect((await importInto(store, filesOf(tables))).map(({ file, added }) => [file, added])).toEqual([
    ['shelf_prices.csv', 2],
    ['findable.csv', 1],
    ['trade_ins.csv', 2],
  ])
  // Seen again for less: the older range stays.
  const again = tables.findable?.map((row) =>
    row.map((cell) => (cell === '2026-11-02' ? '2026-11-20' : cell === '80' ? '70' : cell)),
  )
  await importInto(store, filesOf({ findable: again ?? [] }))
  const names = (await exportShop(store)).map(({ name }) => name)
  expect(names).toEqual(expect.arrayContaining(['shelf_prices', 'findable', 'findable_prices', 'trade_ins']))
  const text = await exportTable(store, 'findable_prices')
  expect(text.ok && text.value.text).toContain('F-0001,80.00,100.00,2026-11-02')
  await expectRoundTrip(store)
})

test.each([
  ['a range that is turned round', ['F-0001', 'CPU-1', 'used', '100', '80', '2026-11-02'], 'price_high'],
  ['a day that is yet to come', ['F-0001', 'CPU-1', 'used', '80', '100', '2027-11-02'], 'seen_on'],
  ['a part that nobody knows', ['F-0001', 'NO-PART', 'used', '80', '100', '2026-11-02'], 'part'],
  ['a condition that is none', ['F-0001', 'CPU-1', 'fine', '80', '100', '2026-11-02'], 'condition'],
])('%s is refused, and nothing of the folder is kept', async (_, row, field) => {
  const store = await temporaryStore()
  await importInto(store, filesOf(SMALL_SHOP))
  const before = await dump(store)
  const known = (SMALL_SHOP.shelf ?? [])[1]?.[1] ?? ''
  const files = filesOf({
    findable: [
      ['findable', 'part', 'condition', 'price_low', 'price_high', 'seen_on'],
      ['F-0009', known, 'new', '10', '10', '2026-11-01'],
      row.map((cell) => (cell === 'CPU-1' ? known : cell)),
    ],
  })
  const imported = await importShop(store, files, AT)
  expect(imported.ok ? [] : imported.problems.map((p) => [p.file, p.line, p.field])).toEqual([
    ['findable.csv', 3, field],
  ])
  expect(await dump(store)).toEqual(before)
})
