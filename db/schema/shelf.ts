import { sql } from 'drizzle-orm'
import { check, index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'

// Models of parts, what stands on the shelf, and prices.

/** Models the shop knows. */
export const parts = sqliteTable(
  'parts',
  {
    id: text().primaryKey(),
    kind: text().notNull(),
    name: text().notNull(),
    /** The data sheet's figures as JSON; keys by kind, as core/part names them. A missing key is unknown. */
    spec: text({ mode: 'json' }).$type<unknown>().notNull(),
  },
  (t) => [index('parts_by_kind').on(t.kind)],
)

export const shelfItems = sqliteTable(
  'shelf_items',
  {
    id: text().primaryKey(),
    partId: text()
      .notNull()
      .references(() => parts.id),
    condition: text().notNull(),
    quantity: integer().notNull(),
    /** Today's price; every earlier one is in shelf_prices. */
    priceMinor: integer().notNull(),
    warrantyMonths: real(),
    pricedAt: text().notNull(),
    note: text(),
    /** What ends the warranty, in the shop's words. */
    warrantyEndsWith: text(),
    /** Somebody took it off the shelf; it can be put back. Offers and jobs that name it still do. */
    removedAt: text(),
  },
  (t) => [index('shelf_items_by_part').on(t.partId)],
)

/** Every price an item ever had, in the order in which they were set (id). Rows are only added. */
export const shelfPrices = sqliteTable(
  'shelf_prices',
  {
    id: integer().primaryKey(),
    itemId: text()
      .notNull()
      .references(() => shelfItems.id),
    pricedAt: text().notNull(),
    priceMinor: integer().notNull(),
  },
  (t) => [index('shelf_prices_by_item').on(t.itemId)],
)

export const workPrices = sqliteTable('work_prices', {
  work: text().primaryKey(),
  minutes: real().notNull(),
  priceMinor: integer().notNull(),
})

/** What the shop gives for a part, by the day from which it holds; the newest counts. */
export const tradeIns = sqliteTable(
  'trade_ins',
  {
    partId: text()
      .notNull()
      .references(() => parts.id),
    creditMinor: integer().notNull(),
    pricedAt: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.partId, t.pricedAt] })],
)

/** Parts that are not on the shelf and that the shop could buy. */
export const findableParts = sqliteTable(
  'findable_parts',
  {
    /** F-0001. */
    id: text().primaryKey(),
    partId: text()
      .notNull()
      .references(() => parts.id),
    condition: text().notNull(),
    /** What it was last seen for; every earlier range is in findable_prices. */
    lowMinor: integer().notNull(),
    highMinor: integer().notNull(),
    seenAt: text().notNull(),
    /** The warranty that a buyer would have, if any. */
    warrantyMonths: real(),
    /** Where it was seen, in the shop's words. */
    place: text(),
    note: text(),
    /** Somebody took it off the list; it can be brought back. */
    removedAt: text(),
  },
  (t) => [
    index('findable_parts_by_part').on(t.partId),
    check('findable_parts_range', sql`${t.lowMinor} >= 0 and ${t.highMinor} >= ${t.lowMinor}`),
  ],
)

/** Every range a findable part was seen for, in the order in which they were noted (id). Rows are only added. */
export const findablePrices = sqliteTable(
  'findable_prices',
  {
    id: integer().primaryKey(),
    findableId: text()
      .notNull()
      .references(() => findableParts.id),
    seenAt: text().notNull(),
    lowMinor: integer().notNull(),
    highMinor: integer().notNull(),
  },
  (t) => [index('findable_prices_by_findable').on(t.findableId)],
)
