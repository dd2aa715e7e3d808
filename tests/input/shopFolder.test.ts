import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readShopFolder, type ShopFile } from '../../src/input/shopFolder.ts'
import {
  bytesOf,
  csv,
  filesOf,
  NOTHING_KNOWN,
  SMALL_SHOP,
  type Tables,
  withCell,
  withRow,
} from './smallShop.ts'

/** What was read, without the lines it stood on. */
function valuesOf(files: readonly ShopFile[]) {
  const read = readShopFolder(files, NOTHING_KNOWN)
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return Object.fromEntries(
    Object.entries(read.value).map(([name, entries]) => [name, entries.map((entry) => entry.value)]),
  )
}

const problemsOf = (files: readonly ShopFile[], known = NOTHING_KNOWN) => {
  const read = readShopFolder(files, known)
  return read.ok ? [] : read.problems
}

const plain = valuesOf(filesOf(SMALL_SHOP))

const each = (change: (text: string) => Uint8Array, style = {}): ShopFile[] =>
  Object.entries(SMALL_SHOP).map(([name, rows]) => ({ name: `${name}.csv`, bytes: change(csv(rows, style)) }))

const utf16 = (text: string, bigEndian: boolean): Uint8Array => {
  const bytes = Buffer.from(text, 'utf16le')
  return new Uint8Array(bigEndian ? bytes.swap16() : bytes)
}

/** Numbers of the small shop with a comma, as a program with a European locale saves them. */
const decimalComma: Tables = Object.fromEntries(
  Object.entries(SMALL_SHOP).map(([name, rows]) => [
    name,
    rows.map((row) =>
      row.map((cell) => cell.replace(/^(\d+)\.(\d+)$/, (all, a, b) => (all === '1.0' ? all : `${a},${b}`))),
    ),
  ]),
)

// Quoting: RFC 4180 section 2. Byte order marks: The Unicode Standard, section 23.8. The rest is common practice of
// spreadsheet programs, from memory.
test.each([
  ['commas and CRLF', filesOf(SMALL_SHOP)],
  ['semicolons', filesOf(SMALL_SHOP, { delimiter: ';' })],
  ['tabs', filesOf(SMALL_SHOP, { delimiter: '\t' })],
  ['LF', filesOf(SMALL_SHOP, { newline: '\n' })],
  ['CR alone', filesOf(SMALL_SHOP, { newline: '\r' })],
  ['every cell quoted', filesOf(SMALL_SHOP, { quoteAll: true })],
  ['UTF-8 with a byte order mark', each((text) => bytesOf(`\ufeff${text}`))],
  ['UTF-16LE with a byte order mark', each((text) => utf16(`\ufeff${text}`, false))],
  ['UTF-16BE with a byte order mark', each((text) => utf16(`\ufeff${text}`, true))],
  ['UTF-16LE without a mark', each((text) => utf16(text, false))],
  ['UTF-16BE without a mark', each((text) => utf16(text, true))],
  [
    'UTF-16LE with tabs, as "Unicode text"',
    each((text) => utf16(`\ufeff${text}`, false), { delimiter: '\t' }),
  ],
  ['decimal commas and semicolons', filesOf(decimalComma, { delimiter: ';' })],
  ['decimal commas and tabs', filesOf(decimalComma, { delimiter: '\t' })],
  ['no line end at the end', each((text) => bytesOf(text.replace(/\r\n$/, '')))],
  ['empty lines first and last', each((text) => bytesOf(`\r\n\r\n${text}\r\n\r\n`))],
  ['rows of commas at the end', each((text) => bytesOf(`${text},,,\r\n,,,\r\n`))],
  [
    'an empty column at the end',
    filesOf(
      Object.fromEntries(Object.entries(SMALL_SHOP).map(([n, t]) => [n, t.map((row) => [...row, '', ''])])),
    ),
  ],
  [
    'spaces around cells',
    filesOf(
      Object.fromEntries(
        Object.entries(SMALL_SHOP).map(([n, t]) => [n, t.map((row) => row.map((cell) => ` ${cell}\u00a0`))]),
      ),
    ),
  ],
  [
    'capital letters in headers and file names',
    filesOf(
      Object.fromEntries(
        Object.entries(SMALL_SHOP).map(([n, [header = [], ...t]]) => [
          n.toUpperCase(),
          [header.map((c) => c.toUpperCase()), ...t],
        ]),
      ),
    ),
  ],
  [
    'a folder before the name and a dot file',
    [
      ...filesOf(SMALL_SHOP).map((f) => ({ ...f, name: `shop/${f.name}` })),
      { name: '.hidden', bytes: bytesOf('x') },
    ],
  ],
])('%s: the same data', (_, files) => {
  expect(valuesOf(files)).toEqual(plain)
})

test('units and the currency typed along change nothing', () => {
  const tables: Tables = {
    ...SMALL_SHOP,
    cards: (SMALL_SHOP.cards ?? []).map(
      ([id = '', name = '', mm = '', plugs = '', gen = '', lanes = '', w = ''], i) =>
        i === 0
          ? [id, name, mm, plugs, gen, lanes, w]
          : [id, name, `${Number(mm) / 10} cm`, plugs.replaceAll('-', ''), gen, `x${lanes}`, `${w}W`],
    ),
    memory: (SMALL_SHOP.memory ?? []).map((row, i) =>
      i === 0 ? row : row.with(5, '8 GB').with(6, '3200 mt/s'),
    ),
    limits: (SMALL_SHOP.limits ?? []).map((row, i) => (i === 1 ? row.with(2, '29.05cm') : row)),
    shelf: (SMALL_SHOP.shelf ?? []).map((row, i) => (i === 0 ? row : row.with(4, '€199.50'))),
    trade_ins: (SMALL_SHOP.trade_ins ?? []).map((row, i) => (i === 0 ? row : row.with(1, '40 eur'))),
    questions: (SMALL_SHOP.questions ?? []).map((row, i) =>
      i === 0 ? row : row.with(5, 'EUR 250').with(7, '75 Hz'),
    ),
    runs: (SMALL_SHOP.runs ?? []).map((row, i) => (i === 1 ? row.with(7, '61.5 FPS') : row)),
  }
  expect(valuesOf(filesOf(tables))).toEqual(plain)
  // A decimal comma is one with a unit behind it too.
  const comma = {
    ...SMALL_SHOP,
    runs: (tables.runs ?? []).map((row) => row.map((c) => c.replace('61.5', '61,5'))),
  }
  expect(valuesOf(filesOf(comma, { delimiter: ';' })).runs).toEqual(plain.runs)
})

test('the plain folder gives what its cells say', () => {
  expect(plain.customers?.[0]).toEqual({
    id: 'C1',
    name: 'Zoë "Zed" Ünal',
    email: 'zoe@example.org',
    note: 'first line\nsecond line, with a comma; and more',
  })
  expect(plain.shelf).toEqual([
    {
      id: 'S1',
      partId: 'CARD-B',
      condition: 'open box',
      quantity: 2,
      priceMinor: 19950,
      at: '2026-03-01T18:00:00.000Z',
    },
  ])
  expect(plain.shop).toMatchObject([
    { currency: 'EUR', supplyShare: 0.75, address: '1 Made-up Street\nNowhere' },
  ])
})

type Bad = [
  why: string,
  tables: Tables,
  file: string,
  line: number,
  field: string,
  code: string,
  got: string | undefined,
  says: string,
]

test.each<Bad>([
  [
    'letter for a digit',
    withCell('cards', 2, 'length_mm', '33o'),
    'cards.csv',
    3,
    'length_mm',
    'not a number',
    '33o',
    'from 1 to 1000 (mm)',
  ],
  [
    'out of bounds',
    withCell('cards', 1, 'length_mm', '1001'),
    'cards.csv',
    2,
    'length_mm',
    'not allowed',
    '1001',
    'from 1 to 1000 (mm)',
  ],
  [
    'zero',
    withCell('boards', 1, 'memory_slots', '0'),
    'boards.csv',
    2,
    'memory_slots',
    'not allowed',
    '0',
    'from 1 to 32',
  ],
  [
    'below zero',
    withCell('work', 1, 'price', '-1'),
    'work.csv',
    2,
    'price',
    'not allowed',
    '-1',
    'zero or more',
  ],
  [
    'not whole',
    withCell('boards', 1, 'memory_slots', '2.5'),
    'boards.csv',
    2,
    'memory_slots',
    'not allowed',
    '2.5',
    'whole number',
  ],
  [
    'exponent',
    withCell('cards', 1, 'length_mm', '1e2'),
    'cards.csv',
    2,
    'length_mm',
    'not a number',
    '1e2',
    'not a number',
  ],
  [
    'infinity',
    withCell('cards', 1, 'length_mm', 'Infinity'),
    'cards.csv',
    2,
    'length_mm',
    'not a number',
    'Infinity',
    'not a number',
  ],
  [
    'another unit in the cell',
    withCell('cards', 1, 'length_mm', '17 ft'),
    'cards.csv',
    2,
    'length_mm',
    'not a number',
    '17 ft',
    'not a number',
  ],
  [
    'a unit of another cell',
    withCell('cards', 1, 'board_power_w', '75 cm'),
    'cards.csv',
    2,
    'board_power_w',
    'not a number',
    '75 cm',
    'not a number',
  ],
  [
    'a clock for a rate',
    withCell('runs', 1, 'memory_mts', '2666 MHz'),
    'runs.csv',
    2,
    'memory_mts',
    'not a number',
    '2666 MHz',
    'not a number',
  ],
  [
    'out of bounds with its unit',
    withCell('cards', 1, 'length_mm', '101 cm'),
    'cards.csv',
    2,
    'length_mm',
    'not allowed',
    '101 cm',
    'from 1 to 1000 (mm)',
  ],
  [
    'thousands comma',
    withCell('runs', 1, 'average_fps', '1,234'),
    'runs.csv',
    2,
    'average_fps',
    'not a number',
    '1,234',
    'write 1234 or 1.234',
  ],
  [
    'decimal comma among commas',
    withCell('runs', 1, 'average_fps', '61,5'),
    'runs.csv',
    2,
    'average_fps',
    'not a number',
    '61,5',
    'write 61.5',
  ],
  [
    'three digits of cents',
    withCell('shelf', 1, 'price', '199.505'),
    'shelf.csv',
    2,
    'price',
    'not allowed',
    '199.505',
    '2 digits',
  ],
  [
    "another currency's sign",
    withCell('shelf', 1, 'price', '$199'),
    'shelf.csv',
    2,
    'price',
    'not a number',
    '$199',
    'not a number',
  ],
  [
    'no such day',
    withCell('runs', 1, 'run_on', '2025-02-29'),
    'runs.csv',
    2,
    'run_on',
    'not allowed',
    '2025-02-29',
    'no such day',
  ],
  [
    'day first',
    withCell('runs', 1, 'run_on', '01.06.2025'),
    'runs.csv',
    2,
    'run_on',
    'not allowed',
    '01.06.2025',
    '2026-03-04',
  ],
  [
    'empty required cell',
    withCell('runs', 2, 'setting', ''),
    'runs.csv',
    3,
    'setting',
    'missing',
    undefined,
    'Fill this cell',
  ],
  [
    'word not in the list',
    withCell('shelf', 1, 'condition', 'open bx'),
    'shelf.csv',
    2,
    'condition',
    'unknown name',
    'open bx',
    'Did you mean "open box"?',
  ],
  [
    'perhaps',
    withCell('settings', 1, 'ray_tracing', 'perhaps'),
    'settings.csv',
    2,
    'ray_tracing',
    'not allowed',
    'perhaps',
    'yes or no',
  ],
  [
    'unknown work',
    withCell('work', 2, 'work', 'fit cardd'),
    'work.csv',
    3,
    'work',
    'unknown name',
    'fit cardd',
    'Did you mean "fit card"?',
  ],
  [
    'plugs',
    withCell('cards', 2, 'plugs', '2x12-pin'),
    'cards.csv',
    3,
    'plugs',
    'not allowed',
    '2x12-pin',
    '1x8-pin + 1x6-pin',
  ],
  [
    'mail address',
    withCell('customers', 1, 'email', 'zoe@'),
    'customers.csv',
    2,
    'email',
    'not allowed',
    'zoe@',
    'name@example.com',
  ],
  [
    'line break in an address',
    withCell('customers', 1, 'email', 'a@example.org\nBcc: b@example.org'),
    'customers.csv',
    2,
    'email',
    'not allowed',
    'a@example.org\nBcc: b@example.org',
    'name@example.com',
  ],
  [
    'line after a cell of two lines',
    withCell('customers', 2, 'email', 'x'),
    'customers.csv',
    4,
    'email',
    'not allowed',
    'x',
    'name@example.com',
  ],
  [
    'key with a space',
    withRow('titles', 'my title', 'Invented'),
    'titles.csv',
    3,
    'title',
    'not allowed',
    'my title',
    'no spaces',
  ],
  [
    'currency',
    withCell('shop', 1, 'currency', 'EURO'),
    'shop.csv',
    2,
    'currency',
    'unknown name',
    'EURO',
    'ISO 4217',
  ],
  [
    'locale',
    withCell('shop', 1, 'locale', 'english please'),
    'shop.csv',
    2,
    'locale',
    'unknown name',
    'english please',
    'BCP 47',
  ],
  [
    'time zone',
    withCell('shop', 1, 'time_zone', 'America/Chicagoo'),
    'shop.csv',
    2,
    'time_zone',
    'unknown name',
    'America/Chicagoo',
    'Did you mean "America/Chicago"?',
  ],
  [
    'second shop',
    withRow('shop', 'B', 'B', 'b@example.com', 'B', 'EUR', 'en-US', 'UTC', ''),
    'shop.csv',
    4,
    'name',
    'not allowed',
    'B',
    'one shop',
  ],
  [
    'unknown part',
    withCell('fitted', 5, 'part', 'CARD-BB'),
    'fitted.csv',
    6,
    'part',
    'unknown name',
    'CARD-BB',
    'Did you mean "CARD-B"?',
  ],
  [
    'unknown machine',
    withCell('limits', 1, 'machine', 'M-0002'),
    'limits.csv',
    2,
    'machine',
    'unknown name',
    'M-0002',
    'Did you mean "M-0001"?',
  ],
  [
    'unknown customer',
    withCell('machines', 1, 'customer', 'C9'),
    'machines.csv',
    2,
    'customer',
    'unknown name',
    'C9',
    'customers.csv',
  ],
  [
    'unknown title in a question',
    withCell('questions', 1, 'titles', 'harbour@1080-high'),
    'questions.csv',
    2,
    'titles',
    'unknown name',
    'harbour',
    'Did you mean "harbor"?',
  ],
  [
    'unknown setting of a run',
    withCell('runs', 2, 'setting', '1440-high'),
    'runs.csv',
    3,
    'setting',
    'unknown name',
    '1440-high',
    'settings.csv',
  ],
  [
    'a title named twice',
    withCell('questions', 1, 'titles', 'harbor@1080-high; harbor@1080-high'),
    'questions.csv',
    2,
    'titles',
    'duplicate',
    'harbor',
    'named twice',
  ],
  [
    'title without a setting',
    withCell('questions', 1, 'titles', 'harbor'),
    'questions.csv',
    2,
    'titles',
    'not allowed',
    'harbor',
    'title@setting',
  ],
  [
    'unknown wish',
    withCell('questions', 1, 'wishes', 'keep the case; no used prats'),
    'questions.csv',
    2,
    'wishes',
    'unknown name',
    'keep the case; no used prats',
    'Did you mean "no used parts"?',
  ],
  [
    'unknown limit',
    withCell('limits', 1, 'limit', 'card_room'),
    'limits.csv',
    2,
    'limit',
    'unknown name',
    'card_room',
    'Did you mean "card_room_mm"?',
  ],
  [
    'value of a limit',
    withCell('limits', 1, 'value', 'wide'),
    'limits.csv',
    2,
    'value',
    'not a number',
    'wide',
    'from 1 to 1000 (mm)',
  ],
  [
    'source that is not typed',
    withCell('limits', 1, 'source', 'platform'),
    'limits.csv',
    2,
    'source',
    'unknown name',
    'platform',
    'read, measured, entered',
  ],
  [
    'out before in',
    withCell('fitted', 4, 'removed_on', '2024-01-01'),
    'fitted.csv',
    5,
    'removed_on',
    'not allowed',
    '2024-01-01',
    'before it went in',
  ],
  [
    'same key twice',
    withRow('cards', 'CARD-A', 'Again', '', '', '', '', ''),
    'cards.csv',
    4,
    'part',
    'duplicate',
    'CARD-A',
    'Line 2',
  ],
  [
    'same key in another table',
    withRow('cards', 'CPU-A', 'Again', '', '', '', '', ''),
    'cards.csv',
    4,
    'part',
    'duplicate',
    'CPU-A',
    'processors.csv, line 2',
  ],
  [
    'same limit twice',
    withRow('limits', 'M-0001', 'firmware', 'F6', 'read', '', ''),
    'limits.csv',
    5,
    'machine + limit + source',
    'duplicate',
    'M-0001 firmware read',
    'Line 3',
  ],
  [
    'text beyond the header',
    withRow('titles', 'winter', 'Invented Winter', 'more'),
    'titles.csv',
    3,
    'column 3',
    'not allowed',
    'more',
    'no name in the header',
  ],
  [
    'unknown column',
    withCell('cards', 0, 'length_mm', 'lenght_mm'),
    'cards.csv',
    1,
    'header',
    'unknown name',
    'lenght_mm',
    'Did you mean "length_mm"?',
  ],
  [
    'column twice',
    withCell('cards', 0, 'pcie_gen', 'pcie_lanes'),
    'cards.csv',
    1,
    'header',
    'duplicate',
    'pcie_lanes',
    'twice',
  ],
  [
    'run on a card that is none',
    withRow('runs', 'R9', '2025-06-01', '', '2666', 'harbor', '1', '1080-high', '60', 'x'),
    'runs.csv',
    4,
    'low_1pct_fps',
    'not a number',
    'x',
    'not a number',
  ],
])('%s is told with file, line and column', (_, tables, file, line, field, code, got, says) => {
  const [problem, ...others] = problemsOf(filesOf(tables))
  expect({ ...problem }).toMatchObject({ file, line, field, code })
  expect(problem?.got).toBe(got)
  expect(problem?.next).toContain(says)
  expect(others).toEqual([])
})

test('a missing required column names what it takes', () => {
  const problems = problemsOf(filesOf({ ...SMALL_SHOP, titles: [['title'], ['harbor']] }))
  expect(problems).toMatchObject([{ file: 'titles.csv', line: 1, field: 'name', code: 'missing' }])
})

test('all problems of all files come at once, files by name and lines in order', () => {
  const tables = {
    ...withCell('runs', 2, 'average_fps', 'x'),
    ...{
      work: [
        ['work', 'minutes', 'price'],
        ['opening', 'y', 'z'],
      ],
    },
  }
  expect(problemsOf(filesOf(tables)).map((p) => [p.file, p.line, p.field])).toEqual([
    ['runs.csv', 3, 'average_fps'],
    ['work.csv', 2, 'minutes'],
    ['work.csv', 2, 'price'],
  ])
})

test('a row with a problem is still known to the rows that name it', () => {
  expect(problemsOf(filesOf(withCell('cards', 2, 'length_mm', 'long'))).map((p) => p.field)).toEqual([
    'length_mm',
  ])
})

test.each(['notes.csv', 'data.csv', 'list.csv', 'parts.csv'])('%s is near no table', (name) => {
  const [problem] = problemsOf([{ name, bytes: bytesOf('a') }])
  expect(problem?.next).toMatch(/^There is no such table. Allowed are: shop.csv/)
})

test.each([
  ['cardz.csv', 'Did you mean "cards.csv"?'],
  ['procesors.csv', 'Did you mean "processors.csv"?'],
  ['notes.txt', 'Allowed are: shop.csv, processors.csv, boards.csv'],
])('an unknown file %s lists the allowed ones', (name, says) => {
  const [problem] = problemsOf([{ name, bytes: bytesOf('a') }], { ...NOTHING_KNOWN, currency: 'EUR' })
  expect(problem).toMatchObject({ code: 'unknown name', file: name, got: name })
  expect(problem?.next).toContain(says)
})

test('no file, the same file twice, and a shop nobody told about', () => {
  expect(problemsOf([])).toMatchObject([{ code: 'missing', field: 'file' }])
  const [file] = filesOf({ shop: SMALL_SHOP.shop ?? [] })
  expect(problemsOf(file ? [file, { ...file, name: 'SHOP.CSV' }] : [])).toMatchObject([
    { code: 'duplicate', got: 'SHOP.CSV' },
  ])
})

test('a shop that nobody told about is missed once, and only where amounts or days are read', () => {
  const { titles = [], cards = [], work = [], machines = [] } = SMALL_SHOP
  expect(problemsOf(filesOf({ titles, cards }))).toEqual([])
  expect(
    problemsOf(filesOf({ titles, cards: withCell('cards', 1, 'length_mm', 'long').cards ?? [] })),
  ).toMatchObject([{ file: 'cards.csv', field: 'length_mm' }])
  const missed = problemsOf(filesOf({ work, machines: [machines[0] ?? [], ['M-0001', '', '', '']] }))
  expect(missed).toMatchObject([{ code: 'missing', field: 'shop.csv' }])
  expect(missed[0]?.next).toContain('work.csv has amounts or days')
  expect(
    problemsOf(filesOf({ machines: [machines[0] ?? [], ['M-0001', '', '2025-01-10', '']] })),
  ).toMatchObject([{ code: 'missing', field: 'shop.csv' }])
  expect(problemsOf(filesOf({ machines: [machines[0] ?? [], ['M-0001', '', '', '']] }))).toEqual([])
})

test('what is stored counts as known, and a part keeps its kind', () => {
  const known = {
    ...NOTHING_KNOWN,
    currency: 'EUR',
    timeZone: 'UTC',
    machines: new Set(['M-0007']),
    parts: new Map([
      ['CARD-A', 'card'],
      ['CPU-A', 'card'],
    ] as const),
  }
  const fitted = [
    ['machine', 'part'],
    ['M-0007', 'CARD-A'],
    ['M-0007', 'CARD-C'],
  ]
  const processors = SMALL_SHOP.processors ?? []
  expect(problemsOf(filesOf({ fitted, processors }), known)).toMatchObject([
    { file: 'fitted.csv', line: 3, code: 'unknown name', got: 'CARD-C' },
    { file: 'processors.csv', line: 2, code: 'conflict', got: 'CPU-A' },
  ])
})

test('a quotation mark that is never closed names the line it stands on', () => {
  const text = 'title,name\nharbor,"Harbor\nwinter,Winter\n'
  const files = [...filesOf({ shop: SMALL_SHOP.shop ?? [] }), { name: 'titles.csv', bytes: bytesOf(text) }]
  expect(problemsOf(files)).toMatchObject([{ code: 'unreadable', file: 'titles.csv', line: 2 }])
})

test('another encoding is told with the first line that cannot be read', () => {
  const latin1 = new Uint8Array(Buffer.from('title,name\r\nharbor,Harbor\r\nwinter,Wintér\r\n', 'latin1'))
  const files = [...filesOf({ shop: SMALL_SHOP.shop ?? [] }), { name: 'titles.csv', bytes: latin1 }]
  expect(problemsOf(files)).toMatchObject([{ code: 'unreadable', file: 'titles.csv', line: 3 }])
})

test('150,000 bad rows are 150,000 problems, soon', () => {
  const fitted = [['machine', 'part'], ...Array.from({ length: 75_000 }, (_, i) => [`M-${i}`, `PART-${i}`])]
  const parts = new Map(Array.from({ length: 2000 }, (_, i) => [`PORT-${i}`, 'fan'] as const))
  const start = performance.now()
  expect(problemsOf(filesOf({ fitted }), { ...NOTHING_KNOWN, currency: 'EUR', parts })).toHaveLength(150_000)
  // Seen: 1 s on two busy cores; with a suggestion for every name it would be minutes.
  expect(performance.now() - start).toBeLessThan(20_000)
})

test('law: any text survives being quoted, whatever delimiter and line end', () => {
  const cell = fc
    .string({ unit: 'grapheme', maxLength: 30 })
    .map((s) => s.replace(/[^\P{Cc}\n]/gu, '').trim())
  fc.assert(
    fc.property(
      fc.array(cell, { minLength: 1, maxLength: 5 }),
      fc.constantFrom(',', ';', '\t'),
      fc.constantFrom('\n', '\r\n', '\r'),
      (notes, delimiter, newline) => {
        const customers = [['customer', 'name', 'note'], ...notes.map((note, i) => [`C${i}`, 'N', note])]
        const shop = SMALL_SHOP.shop ?? []
        const read = valuesOf(filesOf({ shop, customers }, { delimiter, newline }))
        expect(read.customers).toEqual(
          notes.map((note, i) => ({ id: `C${i}`, name: 'N', note: note || undefined })),
        )
      },
    ),
  )
})
