import { sql } from 'drizzle-orm'
import { check, index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'

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
    /** In dB(A) at one metre; null: only what a machine itself was measured at counts. */
    quietDba: real(),
  },
  (t) => [check('shops_one_row', sql`${t.id} = 1`)],
)

export const customers = sqliteTable(
  'customers',
  {
    id: text().primaryKey(),
    name: text().notNull(),
    /** Null for customers who only chat or phone. Not unique: a family may share one address. */
    email: text(),
    phone: text(),
    note: text(),
    /** What they read our mails and their page in; null: the shop's own language. */
    language: text(),
    /** When the person was erased: the row stays, so that accounts and machines hold together, and tells nobody any more. */
    erasedAt: text(),
  },
  // As the list is ordered: those who were erased last.
  (t) => [index('customers_in_order').on(sql`(${t.erasedAt} is not null)`, t.name, t.id)],
)

/**
 * What customers agreed to, and took back. Rows are only added (triggers refuse changes); the newest one counts, and
 * where there is none nothing was agreed to.
 */
export const consents = sqliteTable(
  'consents',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    customerId: text()
      .notNull()
      .references(() => customers.id),
    /** As core/consent names them: to what, given or withdrawn, and how it came. */
    kind: text().notNull(),
    standing: text().notNull(),
    at: text().notNull(),
    source: text().notNull(),
    /** The very words that were agreed to, and their language (BCP 47). */
    wording: text().notNull(),
    language: text().notNull(),
  },
  (t) => [index('consents_by_customer').on(t.customerId)],
)

/** Customers who asked to be erased. One that is neither taken back nor carried out waits. */
export const eraseRequests = sqliteTable(
  'erase_requests',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    customerId: text()
      .notNull()
      .references(() => customers.id),
    askedAt: text().notNull(),
    /** How it came, as core/consent names sources. */
    source: text().notNull(),
    takenBackAt: text(),
    doneAt: text(),
  },
  (t) => [index('erase_requests_by_customer').on(t.customerId)],
)

/** After how many months without anything open the shop is reminded that it may erase a customer; no row: never. */
export const keepingRules = sqliteTable(
  'keeping_rules',
  { id: integer().primaryKey(), remindAfterMonths: integer().notNull() },
  (t) => [check('keeping_rules_one_row', sql`${t.id} = 1`)],
)
