import type { Reading } from '../input/cells.ts'
import { writeTable } from '../input/csv/write.ts'
import { pastLimitRecords, saleRecords, sheetRecords } from '../input/tables/records.ts'
import { ok, type Result } from '../problem.ts'
import { handedSheetsOf } from '../store/handedSheets.ts'
import { listMachineRecords, pastClaimsOf } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { listSales } from '../store/sales.ts'
import { type ExportedTable, exportTable, limitFieldsOf, readingOf } from './exportShop.ts'
import { shopOrNeutral } from './shop.ts'

const tagsOf = async (db: Db): Promise<string[]> => (await listMachineRecords(db)).map(({ tag }) => tag)

/** Tables that are given out and not read back, by name. */
const RECORDS: ReadonlyMap<string, (db: Db, reading: Reading) => Promise<ExportedTable>> = new Map([
  [
    saleRecords.name,
    async (db, reading) => {
      const rows = (await listSales(db)).map(({ parts, ...sale }) => {
        const costs = parts.flatMap(({ costMinor }) => costMinor ?? [])
        const isKnown = costs.length === parts.length
        return { ...sale, ...(isKnown && { partsMinor: costs.reduce((sum, cost) => sum + cost, 0) }) }
      })
      return { name: saleRecords.name, rows: rows.length, text: writeTable(saleRecords, rows, reading) }
    },
  ],
  [
    sheetRecords.name,
    async (db, reading) => {
      const tags = await tagsOf(db)
      const sheets = await Promise.all(
        tags.map(async (machineTag) =>
          (await handedSheetsOf(db, machineTag)).map((sheet) => ({ machineTag, ...sheet })),
        ),
      )
      const rows = sheets.flat()
      return { name: sheetRecords.name, rows: rows.length, text: writeTable(sheetRecords, rows, reading) }
    },
  ],
  [
    pastLimitRecords.name,
    async (db, reading) => {
      const tags = await tagsOf(db)
      const past = await Promise.all(
        tags.map(async (tag) =>
          (await pastClaimsOf(db, tag)).map(({ claim, endedAt }) => ({
            ...{ ...limitFieldsOf(tag, claim, reading), endedAt },
          })),
        ),
      )
      const rows = past.flat()
      const { name } = pastLimitRecords
      return { name, rows: rows.length, text: writeTable(pastLimitRecords, rows, reading) }
    },
  ],
])

/** One table, of those that the import reads or of these; without any row, its header. */
export async function exportAnyTable(store: Store, name: string): Promise<Result<ExportedTable>> {
  const record = RECORDS.get(name)
  if (record === undefined) return exportTable(store, name)
  const { policy, timeZone } = await shopOrNeutral(store.db)
  return ok(await record(store.db, readingOf(policy.currency, timeZone)))
}
