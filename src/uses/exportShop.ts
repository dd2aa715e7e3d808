import { minorDigitsOf } from '../core/currency.ts'
import type { Run, Setting } from '../core/gain/run.ts'
import type { Claim } from '../core/limits/limit.ts'
import { statedOnly } from '../core/naming/fromName.ts'
import { PART_KINDS, type Part } from '../core/part.ts'
import type { Display, Question } from '../core/question.ts'
import { type Cell, type Pixels, type Reading, writeCell } from '../input/cells.ts'
import type { Columns, Table } from '../input/csv/table.ts'
import { writeTable } from '../input/csv/write.ts'
import { TABLE_NAMES } from '../input/shopFolder.ts'
import {
  consentTable,
  customerTable,
  fittedTable,
  LIMIT_COLUMNS,
  type LimitFields,
  limitTable,
  machineTable,
} from '../input/tables/machines.ts'
import { PART_TABLES } from '../input/tables/parts.ts'
import { type QuestionFields, questionTable } from '../input/tables/questions.ts'
import {
  ownerReportTable,
  type RunFields,
  runTable,
  type SettingFields,
  settingTable,
  titleTable,
} from '../input/tables/runs.ts'
import {
  findablePriceTable,
  findableTable,
  shelfPriceTable,
  shelfTable,
  shopTable,
  tradeInTable,
  workTable,
} from '../input/tables/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { loadStored, type Stored } from './importStored.ts'
import { shopOrNeutral } from './shop.ts'

/** A table of the shop as the import reads it. */
export type ExportedTable = { readonly name: string; readonly rows: number; readonly text: string }

/**
 * Every table of the shop in the format of the import, in the order of its README; importing them changes nothing.
 * Tables without a row are left out.
 */
export async function exportShop({ db }: Store): Promise<readonly ExportedTable[]> {
  const stored = await loadStored(db)
  const { policy, timeZone } = await shopOrNeutral(db)
  const reading = readingOf(policy.currency, timeZone)
  return TABLE_NAMES.flatMap((name) => WRITERS.get(name)?.(stored, reading) ?? []).filter(
    ({ rows }) => rows > 0,
  )
}

/** One table; without any row, its header. */
export async function exportTable({ db }: Store, name: string): Promise<Result<ExportedTable>> {
  const write = WRITERS.get(name)
  if (write === undefined) return failed(noSuchTable(`${name}.csv`))
  const { policy, timeZone } = await shopOrNeutral(db)
  return ok(write(await loadStored(db), readingOf(policy.currency, timeZone)))
}

export function noSuchTable(file: string): Problem {
  const allowed = TABLE_NAMES.map((table) => `${table}.csv`).join(', ')
  const next = `There is no such table. Take one of: ${allowed}.`
  return { code: 'not found', field: 'table', got: file, allowed, next }
}

export const readingOf = (currency: string, timeZone: string): Reading => ({
  decimalMark: '.',
  ...{ currencyDigits: minorDigitsOf(currency), currency, timeZone },
})

/** A price that was set again on the same day says nothing new, and a table takes it once. */
const onceEach = <R>(rows: readonly R[]): R[] => [
  ...new Map(rows.map((row) => [JSON.stringify(row), row])).values(),
]

type Writer = (stored: Stored, reading: Reading) => ExportedTable

function writer<T, C extends Columns<T>>(
  table: Table<T, C>,
  rowsOf: (stored: Stored, reading: Reading) => readonly T[],
): [string, Writer] {
  const write: Writer = (stored, reading) => {
    const rows = rowsOf(stored, reading)
    return { name: table.name, rows: rows.length, text: writeTable(table, rows, reading) }
  }
  return [table.name, write]
}

/** Figures that only the name tells are left out: the import reads them from the name again, and marks them so. */
const partsOfKind = ({ parts }: Stored, kind: Part['kind']): Part[] =>
  parts.filter((part) => part.kind === kind).map(statedOnly)

const WRITERS: ReadonlyMap<string, Writer> = new Map([
  writer(shopTable, ({ shop }) => {
    if (shop === undefined) return []
    const { policy, ...particulars } = shop
    return [{ ...particulars, ...policy }]
  }),
  ...PART_KINDS.map((kind) =>
    // The table of a kind belongs to the parts of that kind, which the compiler does not follow.
    writer(PART_TABLES[kind] as unknown as Table<Part, Columns<Part>>, (stored) => partsOfKind(stored, kind)),
  ),
  writer(shelfTable, ({ shelf }) => shelf),
  // What an item costs now stands in its own row.
  writer(shelfPriceTable, ({ shelf, shelfPrices }) => {
    const now = new Map(shelf.map((item) => [item.id, item]))
    return onceEach(
      shelfPrices.filter(({ itemId, at, priceMinor }) => {
        const item = now.get(itemId)
        return item?.at !== at || item.priceMinor !== priceMinor
      }),
    )
  }),
  writer(findableTable, ({ findable }) => findable),
  writer(findablePriceTable, ({ findable, findablePrices }) => {
    const now = new Map(findable.map((line) => [line.id, line]))
    return onceEach(
      findablePrices.filter(({ findableId, at, lowMinor, highMinor }) => {
        const line = now.get(findableId)
        const isNow = line?.at === at && line.lowMinor === lowMinor && line.highMinor === highMinor
        return line !== undefined && !isNow
      }),
    )
  }),
  writer(workTable, ({ work }) => work),
  writer(tradeInTable, ({ tradeIns }) => tradeIns),
  writer(customerTable, ({ customers }) => customers),
  writer(consentTable, ({ consents }) => consents),
  writer(machineTable, ({ machines }) => machines),
  writer(fittedTable, ({ fitted }) => fitted),
  writer(limitTable, ({ claims }, reading) =>
    claims.map(({ machineTag, claim }) => limitFieldsOf(machineTag, claim, reading)),
  ),
  writer(titleTable, ({ titles }) => titles),
  writer(settingTable, ({ settings }) => settings.map(settingFieldsOf)),
  writer(runTable, ({ runs }) => runs.map(runFieldsOf)),
  writer(ownerReportTable, ({ ownerReports }) => ownerReports),
  writer(questionTable, ({ questions }) => questions.map(questionFieldsOf)),
])

export function limitFieldsOf(machineTag: string, claim: Claim, reading: Reading): LimitFields {
  const cell: Cell<unknown> = LIMIT_COLUMNS[claim.key].cell
  const { key, source, at, note, pinned = false } = claim
  return { machineTag, key, value: writeCell(cell, claim.value, reading), source, at, note, pinned }
}

const settingFieldsOf = ({ lowered, ...setting }: Setting): SettingFields => ({
  ...setting,
  loweredFromId: lowered?.fromSettingId,
  loweredWhat: lowered?.what,
})

const runFieldsOf = ({ fitted, ...run }: Run): RunFields => ({
  ...run,
  processorId: fitted.processorId,
  cardId: fitted.cardId,
  ...fitted.memory,
  linkGen: fitted.link.gen,
  linkLanes: fitted.link.lanes,
  largeBar: fitted.largeBar,
  processorLimitW: fitted.processorLimitW,
  cardLimitW: fitted.cardLimitW,
})

function questionFieldsOf(question: Question): QuestionFields {
  const { id, machineTag, askedAt, words, wanted, targetFps, budgetMinor, wishes } = question
  const { display, plannedDisplay, partInMind, asks, cameBy, complaint, spaceGB } = question
  return {
    ...{ id, machineTag, askedAt, words, wanted, targetFps, budgetMinor, asks, cameBy, complaint },
    wishes: wishes.length === 0 ? undefined : wishes,
    spaceGB,
    display: pixelsOf(display),
    refreshHz: display.refreshHz,
    partKind: partInMind?.kind,
    partWords: partInMind?.words,
    partPriceMinor: partInMind?.priceMinor,
    plannedSize: plannedDisplay && pixelsOf(plannedDisplay),
    plannedHz: plannedDisplay?.refreshHz,
  }
}

const pixelsOf = ({ widthPx, heightPx }: Display): Pixels | undefined =>
  widthPx === undefined && heightPx === undefined
    ? undefined
    : { ...(widthPx !== undefined && { widthPx }), ...(heightPx !== undefined && { heightPx }) }
