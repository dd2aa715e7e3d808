import { and, eq, gt, inArray, isNull, like, or, sql } from 'drizzle-orm'
import { changes } from '../../db/schema.ts'
import type { Db } from './open.ts'

/**
 * Whether the price of one of these shelf items was written after that entry of the log. The day that a price says it is of does
 * not tell: it is typed, and may be noon of today in the morning. A change of many rows that names none counts for all.
 */
export async function repricedSince(db: Db, itemIds: readonly string[], change: number): Promise<boolean> {
  if (itemIds.length === 0) return false
  const [found] = await db
    .select({ id: changes.id })
    .from(changes)
    .where(
      and(
        gt(changes.id, change),
        eq(changes.kind, 'shelf_items'),
        or(
          and(isNull(changes.record), eq(changes.what, 'changed')),
          and(
            inArray(changes.record, [...itemIds]),
            like(sql`',' || ${changes.fields} || ','`, '%,price_minor,%'),
          ),
        ),
      ),
    )
    .limit(1)
  return found !== undefined
}
