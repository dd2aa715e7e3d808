import { minorDigitsOf } from '../core/currency.ts'
import { PART_KINDS, type Part, type PartKind } from '../core/part.ts'
import { ok, type Problem, type Result } from '../problem.ts'
import { date, money, type Reading } from './cells.ts'
import { closest } from './closest.ts'
import { decodeText } from './csv/decode.ts'
import { type Delimiter, splitRows, type TextRow } from './csv/rows.ts'
import { type Columns, type Draft, duplicate, type Entry, readTable, type Table } from './csv/table.ts'
import { currencyProblem } from './keptCurrency.ts'
import { bareOf, decimalMarkOf } from './numbers.ts'
import { type Known, referenceProblems } from './references.ts'
import { type LimitDraft, readLimits } from './tables/limits.ts'
import { consentTable, customerTable, fittedTable, limitTable, machineTable } from './tables/machines.ts'
import { PART_TABLES } from './tables/parts.ts'
import { questionTable } from './tables/questions.ts'
import { ownerReportTable, runTable, settingTable, titleTable } from './tables/runs.ts'
import {
  findablePriceTable,
  findableTable,
  shelfPriceTable,
  shelfTable,
  shopTable,
  tradeInTable,
  workTable,
} from './tables/shop.ts'

export type ShopFile = { readonly name: string; readonly bytes: Uint8Array }

type Rows<T> = T extends Table<infer V, infer C> ? readonly Entry<Draft<V, C>>[] : never

/** A folder of tables, read and checked. Fields that a file does not have are absent, see Draft. */
export type ShopData = {
  readonly shop: Rows<typeof shopTable>
  readonly customers: Rows<typeof customerTable>
  readonly consents: Rows<typeof consentTable>
  readonly parts: readonly Entry<Part>[]
  readonly machines: Rows<typeof machineTable>
  readonly fitted: Rows<typeof fittedTable>
  readonly limits: readonly Entry<LimitDraft>[]
  readonly shelf: Rows<typeof shelfTable>
  readonly shelfPrices: Rows<typeof shelfPriceTable>
  readonly findable: Rows<typeof findableTable>
  readonly findablePrices: Rows<typeof findablePriceTable>
  readonly work: Rows<typeof workTable>
  readonly tradeIns: Rows<typeof tradeInTable>
  readonly titles: Rows<typeof titleTable>
  readonly settings: Rows<typeof settingTable>
  readonly runs: Rows<typeof runTable>
  readonly ownerReports: Rows<typeof ownerReportTable>
  readonly questions: Rows<typeof questionTable>
}

/** Names of rows of this folder, by file name without `.csv`; a name counts although its row has a problem. */
export type Keys = ReadonlyMap<string, ReadonlyMap<string, number>>

type AnyTable = {
  readonly name: string
  readonly columns: Readonly<
    Record<string, { readonly required: boolean; readonly cell: { readonly allowed: string } }>
  >
}

/** Every table a shop folder may hold, as the README lists them. */
export const TABLES: readonly AnyTable[] = [
  shopTable,
  ...PART_KINDS.map((kind) => PART_TABLES[kind]),
  shelfTable,
  shelfPriceTable,
  findableTable,
  findablePriceTable,
  workTable,
  tradeInTable,
  customerTable,
  consentTable,
  machineTable,
  fittedTable,
  limitTable,
  titleTable,
  settingTable,
  runTable,
  ownerReportTable,
  questionTable,
]

/** Files a shop folder may hold, without `.csv`. */
export const TABLE_NAMES: readonly string[] = TABLES.map((t) => t.name)

type Split = { readonly delimiter: Delimiter; readonly rows: readonly TextRow[] }

/**
 * Reads the files of a shop folder. All problems of all files are collected: bad cells, unknown columns and files,
 * keys that are there twice, names that neither the folder nor `known` (what is stored) has.
 * Files whose name begins with a dot are left out: systems put them into folders by themselves.
 */
export function readShopFolder(files: readonly ShopFile[], known: Known): Result<ShopData> {
  let problems: Problem[] = []
  const splits = splitFiles(files, problems)
  const keys = new Map<string, ReadonlyMap<string, number>>()

  const read = <T, C extends Columns<T>>(table: Table<T, C>, reading: Omit<Reading, 'decimalMark'>) => {
    const split = splits.get(table.name)
    if (split === undefined) return []
    const found = readTable(table, split.rows, { ...reading, decimalMark: markOf(split, table) })
    // Not push(...): a long list of arguments overflows the stack.
    problems = problems.concat(found.problems)
    keys.set(table.name, found.keys)
    return found.entries
  }

  const shop = read(shopTable, { currencyDigits: 2, timeZone: 'UTC' })
  problems.push(...shopProblems(shop, splits, known))
  const currency = shop[0]?.value.currency ?? known.currency
  const reading = {
    // Without a currency no amount is imported; its digits are not complained about on top.
    currencyDigits: currency === undefined ? 4 : minorDigitsOf(currency),
    currency,
    timeZone: shop[0]?.value.timeZone ?? known.timeZone ?? 'UTC',
  }
  const parts = PART_KINDS.flatMap((kind) => readParts(kind, (table) => read(table, reading)))
  const limits = readLimits(
    read(limitTable, reading),
    { ...reading, decimalMark: markOf(splits.get('limits'), limitTable) },
    problems,
  )
  const data: ShopData = {
    shop,
    customers: read(customerTable, reading),
    consents: read(consentTable, reading),
    parts,
    machines: read(machineTable, reading),
    fitted: read(fittedTable, reading),
    limits,
    shelf: read(shelfTable, reading),
    shelfPrices: read(shelfPriceTable, reading),
    findable: read(findableTable, reading),
    findablePrices: read(findablePriceTable, reading),
    work: read(workTable, reading),
    tradeIns: read(tradeInTable, reading),
    titles: read(titleTable, reading),
    settings: read(settingTable, reading),
    runs: read(runTable, reading),
    ownerReports: read(ownerReportTable, reading),
    questions: read(questionTable, reading),
  }
  problems = problems.concat(partsTwice(keys), referenceProblems(data, keys, known))
  return problems.length > 0 ? { ok: false, problems: problems.sort(byPlace) } : ok(data)
}

/** Bytes to rows, by table name. */
function splitFiles(files: readonly ShopFile[], problems: Problem[]): Map<string, Split> {
  const splits = new Map<string, Split>()
  const seen = new Set<string>()
  for (const { name, bytes } of files) {
    const base = name.split(/[/\\]/).at(-1) ?? name
    if (base.startsWith('.')) continue
    const table = base.toLowerCase().replace(/\.csv$/, '')
    if (!base.toLowerCase().endsWith('.csv') || !TABLE_NAMES.includes(table)) {
      const allowed = TABLE_NAMES.map((n) => `${n}.csv`).join(', ')
      // The name alone: with `.csv`, half the letters of a short name are right whatever it is.
      const near = closest(table, TABLE_NAMES)
      const hint = near === undefined ? '' : ` Did you mean "${near}.csv"?`
      const next = `There is no such table.${hint} Allowed are: ${allowed}.`
      problems.push({ code: 'unknown name', field: 'file', got: base, file: base, allowed, next })
      continue
    }
    if (seen.has(table)) {
      const next = 'This table is there twice. Give one file of each name.'
      problems.push({ code: 'duplicate', field: 'file', got: base, file: base, next })
      continue
    }
    seen.add(table)
    const text = decodeText(bytes, `${table}.csv`)
    const split = text.ok ? splitRows(text.value, `${table}.csv`) : text
    if (split.ok) splits.set(table, split.value)
    else problems.push(...split.problems)
  }
  if (seen.size === 0 && problems.length === 0) {
    const next = `Give at least one of: ${TABLE_NAMES.map((n) => `${n}.csv`).join(', ')}.`
    problems.push({ code: 'missing', field: 'file', next })
  }
  return splits
}

/** The decimal mark of a file, from the cells under its numeric columns. */
function markOf<T, C extends Columns<T>>(split: Split | undefined, table: Table<T, C>) {
  const [header, ...rows] = split?.rows ?? []
  const columns: Readonly<Record<string, { readonly cell: { readonly numeric?: boolean } }>> = table.columns
  const numeric = (header?.cells ?? []).flatMap((name, at) =>
    columns[name.toLowerCase()]?.cell.numeric ? [at] : [],
  )
  return decimalMarkOf(
    split?.delimiter ?? ',',
    rows.flatMap((row) => numeric.map((at) => bareOf(row.cells[at] ?? ''))),
  )
}

function readParts(
  kind: PartKind,
  read: <T, C extends Columns<T>>(table: Table<T, C>) => readonly Entry<Draft<T, C>>[],
): readonly Entry<Part>[] {
  const of = <T extends { line: number; value: object }, K extends PartKind>(entries: readonly T[], k: K) =>
    entries.map(({ line, value }) => ({ line, value: { kind: k, ...(value as T['value']) } }))
  switch (kind) {
    case 'processor':
      return of(read(PART_TABLES.processor), kind)
    case 'board':
      return of(read(PART_TABLES.board), kind)
    case 'memory':
      return of(read(PART_TABLES.memory), kind)
    case 'card':
      return of(read(PART_TABLES.card), kind)
    case 'supply':
      return of(read(PART_TABLES.supply), kind)
    case 'case':
      return of(read(PART_TABLES.case), kind)
    case 'cooler':
      return of(read(PART_TABLES.cooler), kind)
    case 'drive':
      return of(read(PART_TABLES.drive), kind)
    case 'fan':
      return of(read(PART_TABLES.fan), kind)
  }
}

/** Keys of parts are unique over all kinds. */
function partsTwice(keys: Keys): Problem[] {
  const first = new Map<string, { file: string; line: number }>()
  const problems: Problem[] = []
  for (const { name } of Object.values(PART_TABLES))
    for (const [id, line] of keys.get(name) ?? []) {
      const earlier = first.get(id)
      if (earlier === undefined) first.set(id, { file: `${name}.csv`, line })
      else problems.push(duplicate(`${name}.csv`, line, 'part', id, earlier.line, earlier.file))
    }
  return problems
}

/** The first file with a filled cell that cannot be read without the shop: an amount or a day. */
const needsShop = (splits: ReadonlyMap<string, Split>): string | undefined =>
  TABLES.find(({ name, columns }) => {
    const [header, ...rows] = splits.get(name)?.rows ?? []
    const places = (header?.cells ?? []).flatMap((column, at) => {
      const cell = columns[column.toLowerCase()]?.cell
      return cell === money || cell === date ? [at] : []
    })
    return rows.some((row) => places.some((at) => (row.cells[at] ?? '') !== ''))
  })?.name

function shopProblems(shop: ShopData['shop'], splits: ReadonlyMap<string, Split>, known: Known): Problem[] {
  const [first, second] = shop
  if (second !== undefined) {
    const next = 'There is one shop: keep one row.'
    return [
      {
        code: 'not allowed',
        field: 'name',
        file: 'shop.csv',
        line: second.line,
        got: second.value.name,
        next,
      },
    ]
  }
  if (first === undefined && !splits.has('shop') && known.currency === undefined) {
    const table = needsShop(splits)
    if (table === undefined) return []
    const next = `The shop is not known yet. Add shop.csv: ${table}.csv has amounts or days, which its currency and time zone tell how to read.`
    return [{ code: 'missing', field: 'shop.csv', next }]
  }
  if (first === undefined || known.currency === undefined) return []
  const kept = { currency: known.currency, places: known.moneyPlaces ?? [] }
  const problem = currencyProblem(kept, first.value.currency)
  return problem === undefined ? [] : [{ ...problem, file: 'shop.csv', line: first.line }]
}

/** Files in the order of the alphabet, lines as they come. */
const byPlace = (a: Problem, b: Problem): number =>
  (a.file ?? '').localeCompare(b.file ?? '', 'en') || (a.line ?? 0) - (b.line ?? 0)
