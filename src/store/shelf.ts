import { eq } from 'drizzle-orm'
import { parts, shelfItems, shelfPrices } from '../../db/schema.ts'
import type { Part } from '../core/part.ts'
import { CONDITIONS, type ShelfItem } from '../core/shop.ts'
import type { Db } from './open.ts'
import { partOf } from './parts.ts'
import { insertRows, oneOf, upsertRows, withoutNulls } from './rows.ts'

/** What the shop can sell now or had on the shelf (quantity 0), with its part. */
export async function listShelf(db: Db): Promise<{ item: ShelfItem; part: Part }[]> {
  const rows = await db
    .select({ item: shelfItems, part: parts })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .orderBy(parts.kind, parts.name, shelfItems.id)
  return rows.map(({ item, part }) => ({ item: itemOf(item), part: partOf(part) }))
}

/** Every price an item had, oldest setting first. */
export async function shelfPricesOf(db: Db, itemId: string): Promise<{ at: string; priceMinor: number }[]> {
  return db
    .select({ at: shelfPrices.pricedAt, priceMinor: shelfPrices.priceMinor })
    .from(shelfPrices)
    .where(eq(shelfPrices.itemId, itemId))
    .orderBy(shelfPrices.id)
}

/** Adds or replaces items. A price or pricing date that differs from the stored one is added to the price history. */
export async function upsertShelf(tx: Db, items: readonly ShelfItem[]): Promise<void> {
  const before = new Map((await tx.select().from(shelfItems)).map((row) => [row.id, row]))
  await upsertRows(
    tx,
    shelfItems,
    [shelfItems.id],
    items.map(({ id, partId, condition, quantity, priceMinor, warrantyMonths = null, at, note = null }) => ({
      id,
      partId,
      condition,
      quantity,
      priceMinor,
      warrantyMonths,
      pricedAt: at,
      note,
    })),
  )
  const repriced = items.filter((item) => {
    const old = before.get(item.id)
    return old?.priceMinor !== item.priceMinor || old.pricedAt !== item.at
  })
  await insertRows(
    tx,
    shelfPrices,
    repriced.map(({ id, at, priceMinor }) => ({ itemId: id, pricedAt: at, priceMinor })),
  )
}

function itemOf(row: typeof shelfItems.$inferSelect): ShelfItem {
  const { pricedAt, condition, ...item } = withoutNulls(row)
  return { ...item, condition: oneOf(CONDITIONS, condition), at: pricedAt }
}
