import { sql } from 'drizzle-orm'
import { reservations, shelfItems } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { isOpenRow } from './reservations.ts'

/** A text that changes when an item's pieces, price or place on the shelf do, or what is put aside of it: read as one row. */
export async function freeMark(db: Db): Promise<string> {
  const { id, quantity, priceMinor, removedAt } = shelfItems
  const [shelf] = await db
    .select({
      mark: sql<
        string | null
      >`group_concat(${id} || ':' || ${quantity} || ':' || ${priceMinor} || ':' || (${removedAt} is null), ' ' order by ${id})`,
    })
    .from(shelfItems)
  const [held] = await db
    .select({
      mark: sql<
        string | null
      >`group_concat(${reservations.itemId} || ':' || ${reservations.quantity}, ' ' order by ${reservations.id})`,
    })
    .from(reservations)
    .where(isOpenRow)
  return `${shelf?.mark ?? ''}\n${held?.mark ?? ''}`
}
