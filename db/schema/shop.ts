import { sql } from 'drizzle-orm'
import { check, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'

// The shop and the people it sells to.

/** The one shop. */
export const shops = sqliteTable(
  'shops',
  {
    id: integer().primaryKey(),
    name: text().notNull(),
    address: text().notNull(),
    email: text().notNull(),
    builder: text().notNull(),
    locale: text().notNull(),
    timeZone: text().notNull(),
    currency: text().notNull(),
    /** 0 < share <= 1. */
    supplyShare: real().notNull(),
    restOfMachineW: real().notNull(),
    supplyFullYears: real().notNull().default(5),
    supplyLossPctPerYear: real().notNull().default(2),
    /** Null: the hottest room in the records. */
    roomC: real(),
    coolingMarginC: real().notNull().default(5),
    smallestGainPct: real().notNull(),
    runWindowDays: real().notNull(),
    priceValidDays: real().notNull(),
    /** Basis points: 825 is 8.25 %. */
    salesTaxBp: integer().notNull().default(0),
    taxIncluded: integer({ mode: 'boolean' }).notNull().default(false),
    taxOnWork: integer({ mode: 'boolean' }).notNull().default(false),
    tradeInsLowerTax: integer({ mode: 'boolean' }).notNull().default(false),
    priceStaleDays: real().notNull().default(60),
  },
  (t) => [check('shops_one_row', sql`${t.id} = 1`)],
)

export const customers = sqliteTable('customers', {
  id: text().primaryKey(),
  name: text().notNull(),
  /** Null for customers who only chat or phone. Not unique: a family may share one address. */
  email: text(),
  phone: text(),
  /** Offers go only to those who said yes. */
  wantsOffers: integer({ mode: 'boolean' }).notNull().default(false),
  note: text(),
})
