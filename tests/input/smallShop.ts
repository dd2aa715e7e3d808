import type { Known } from '../../src/input/references.ts'

/** An empty store. */
export const NOTHING_KNOWN: Known = {
  parts: new Map(),
  machines: new Set(),
  customers: new Set(),
  titles: new Set(),
  settings: new Set(),
  items: new Set(),
  findable: new Set(),
}

/** A small invented shop as tables of cells. Parts, people and figures are made up; sockets and standards are real. */
export type Tables = Readonly<Record<string, readonly (readonly string[])[]>>

export const SMALL_SHOP: Tables = {
  shop: [
    ['name', 'address', 'email', 'builder', 'currency', 'locale', 'time_zone', 'supply_share_pct'],
    [
      'Invented Shop',
      '1 Made-up Street\nNowhere',
      'bench@example.com',
      'Ada',
      'EUR',
      'en-US',
      'America/Chicago',
      '75',
    ],
  ],
  customers: [
    ['customer', 'name', 'email', 'note'],
    ['C1', 'Zoë "Zed" Ünal', 'zoe@example.org', 'first line\nsecond line, with a comma; and more'],
    ['C2', 'Only Chats', '', ''],
  ],
  consents: [
    ['customer', 'offers', 'said_on', 'source', 'wording', 'language'],
    ['C1', 'given', '2026-01-10', 'mail', 'Yes, write to me.', 'en'],
    ['C1', 'withdrawn', '2026-02-10', 'unsubscribe', '', ''],
    ['C1', 'given', '2026-03-01', 'in person', 'Write when a card comes up.', 'en-GB'],
    ['C2', 'withdrawn', '2026-01-12', 'import', 'No mails, please.', 'en'],
  ],
  processors: [
    ['part', 'name', 'socket', 'generation', 'class', 'cores', 'limit_power_w'],
    ['CPU-A', 'Invented P6', 'LGA1200', '10th (Comet Lake)', 'i5', '6', '134'],
  ],
  boards: [
    [
      'part',
      'name',
      'socket',
      'chipset',
      'memory_type',
      'memory_slots',
      'slot_pcie_gen',
      'slot_lanes',
      'memory_rate_mts_max',
    ],
    ['BRD-A', 'Invented B', 'LGA1200', 'B460', 'DDR4', '2', '3', '16', '2933'],
  ],
  memory: [
    ['part', 'name', 'memory_type', 'form', 'modules', 'module_gb', 'rate_mts'],
    ['MEM-A', 'Invented kit', 'DDR4', 'DIMM', '2', '8', '3200'],
  ],
  cards: [
    ['part', 'name', 'length_mm', 'plugs', 'pcie_gen', 'pcie_lanes', 'board_power_w'],
    ['CARD-A', 'Invented small', '170.5', 'none', '3', '16', '75'],
    ['CARD-B', 'Invented large', '267', '1x8-pin + 1x6-pin', '4', '16', '200.5'],
  ],
  shelf: [
    ['item', 'part', 'condition', 'quantity', 'price', 'priced_on'],
    ['S1', 'CARD-B', 'open box', '2', '199.50', '2026-03-01'],
  ],
  work: [
    ['work', 'minutes', 'price'],
    ['opening', '15', '12'],
    ['fit card', '10', '7.5'],
  ],
  trade_ins: [
    ['part', 'credit', 'priced_on'],
    ['CARD-A', '40', '2026-03-01'],
  ],
  machines: [
    ['machine', 'customer', 'sold_on', 'note'],
    ['M-0001', 'C1', '2025-01-10', ''],
  ],
  fitted: [
    ['machine', 'part', 'fitted_on', 'removed_on'],
    ['M-0001', 'CPU-A', '2025-01-10', ''],
    ['M-0001', 'BRD-A', '2025-01-10', ''],
    ['M-0001', 'MEM-A', '2025-01-10', ''],
    ['M-0001', 'CARD-A', '2025-01-10', '2026-02-01'],
    ['M-0001', 'CARD-B', '2026-02-01', ''],
  ],
  limits: [
    ['machine', 'limit', 'value', 'source', 'on', 'pinned'],
    ['M-0001', 'card_room_mm', '290.5', 'measured', '2025-01-10', ''],
    ['M-0001', 'firmware', 'F5a', 'read', '', 'yes'],
    ['M-0001', 'supply_plugs', '2x8-pin', 'entered', '', ''],
  ],
  titles: [
    ['title', 'name'],
    ['harbor', 'Invented Harbor'],
  ],
  settings: [
    ['setting', 'width_px', 'height_px', 'preset', 'ray_tracing'],
    ['1080-high', '1920', '1080', 'high', 'no'],
  ],
  runs: [
    [
      'run',
      'run_on',
      'machine',
      'memory_mts',
      'title',
      'title_version',
      'setting',
      'average_fps',
      'low_1pct_fps',
    ],
    ['R1', '2025-06-01', 'M-0001', '2666', 'harbor', '1.0', '1080-high', '61.5', '48'],
    ['R2', '2026-02-01', 'M-0001', '2666', 'harbor', '1.0', '1080-high', '88', ''],
  ],
  questions: [
    ['question', 'machine', 'asked_on', 'words', 'titles', 'budget', 'display_px', 'display_hz', 'wishes'],
    [
      'Q1',
      'M-0001',
      '2026-03-02',
      'Can it take\na better card?',
      'harbor@1080-high x2',
      '250',
      '1920x1080',
      '75',
      'keep the case',
    ],
  ],
}

type Style = { readonly delimiter?: string; readonly newline?: string; readonly quoteAll?: boolean }

/** One table as CSV text, quoted as RFC 4180 section 2 (rules 5 to 7) says. */
export function csv(rows: readonly (readonly string[])[], style: Style = {}): string {
  const { delimiter = ',', newline = '\r\n', quoteAll = false } = style
  const quote = (cell: string) =>
    quoteAll || cell.includes(delimiter) || /["\r\n]/.test(cell)
      ? `"${cell.replaceAll('"', '""').replaceAll('\n', newline)}"`
      : cell
  return rows.map((row) => row.map(quote).join(delimiter) + newline).join('')
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Files of a folder; `change` replaces tables. */
export const filesOf = (tables: Tables, style?: Style) =>
  Object.entries(tables).map(([name, rows]) => ({ name: `${name}.csv`, bytes: bytesOf(csv(rows, style)) }))

/** The small shop with one cell changed; row 0 is the header. */
export function withCell(name: string, row: number, column: string, value: string): Tables {
  const rows = SMALL_SHOP[name] ?? []
  const at = rows[0]?.indexOf(column) ?? -1
  if (at < 0) throw new RangeError(`${name} has no column ${column}`)
  return { ...SMALL_SHOP, [name]: rows.map((cells, i) => (i === row ? cells.with(at, value) : cells)) }
}

/** The small shop with one more row in a table. */
export const withRow = (name: string, ...cells: string[]): Tables => ({
  ...SMALL_SHOP,
  [name]: [...(SMALL_SHOP[name] ?? []), cells],
})
