import { getTableColumns, isNotNull, or, type SQL } from 'drizzle-orm'
import type { SQLiteTable } from 'drizzle-orm/sqlite-core'
import {
  findableParts,
  findablePrices,
  jobs,
  partsOut,
  questions,
  roundItems,
  roundSeats,
  saleParts,
  sales,
  shelfItems,
  shelfPrices,
  tradeIns,
  workPrices,
} from '../../db/schema.ts'
import type { Db } from './open.ts'

/** Tables that keep amounts in the shop's currency, as people call what is in them. Answers keep their own currency. */
export const MONEY_TABLES: readonly (readonly [words: string, table: SQLiteTable])[] = [
  ['the shelf', shelfItems],
  ['earlier shelf prices', shelfPrices],
  ['findable parts', findableParts],
  ['earlier prices of findable parts', findablePrices],
  ['work', workPrices],
  ['trade-ins', tradeIns],
  ['questions', questions],
  ['jobs', jobs],
  ['parts that came out', partsOut],
  ['sales', sales],
  ['parts of sales', saleParts],
  ['items of rounds', roundItems],
  ['customers of rounds', roundSeats],
]

/** Columns with an amount: `...Minor`, and the owner's price inside of the part in mind. */
const isMoney = (column: string): boolean => column.endsWith('Minor') || column === 'partInMind'

/** Where money is stored, in words; empty where no amount would change its meaning with the currency. */
export async function placesOfMoney(db: Db): Promise<string[]> {
  const places: string[] = []
  for (const [words, table] of MONEY_TABLES) {
    const given: SQL[] = Object.entries(getTableColumns(table)).flatMap(([name, column]) =>
      isMoney(name) ? [isNotNull(column)] : [],
    )
    if ((await db.$count(table, or(...given))) > 0) places.push(words)
  }
  return places
}
