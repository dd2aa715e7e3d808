import { sql } from 'drizzle-orm'
import { blob, index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core'
import { jobs } from './jobs.ts'
import { ownerRequests, questions } from './questions.ts'
import { parts, shelfItems } from './shelf.ts'
import { customers } from './shop.ts'

// Machines: what is in them, what they can take, whose they are and how they left the shop.

export const machines = sqliteTable(
  'machines',
  {
    /** As written on the case label. */
    tag: text().primaryKey(),
    customerId: text().references(() => customers.id),
    soldAt: text(),
    note: text(),
  },
  (t) => [
    index('machines_by_customer').on(t.customerId),
    // As lists are ordered: what stands before the number, then the number. (The migration is written by hand here: its maker
    // parts the expression at its comma.)
    index('machines_in_order').on(sql`rtrim(${t.tag}, '0123456789')`, sql`length(${t.tag})`, t.tag),
  ],
)

/**
 * Codes on case labels: what a label leads to is about the machine alone. A code is kept as it is, because a label must
 * be printed again; it is long enough that nobody finds one by trying.
 */
export const machineLabels = sqliteTable(
  'machine_labels',
  {
    code: text().primaryKey(),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    madeAt: text().notNull(),
    /** When the label stopped leading anywhere. */
    endedAt: text(),
  },
  (t) => [index('machine_labels_by_machine').on(t.machineTag)],
)

/** Parts in machines, now and before. Two equal kits are two rows. */
export const fittedParts = sqliteTable(
  'fitted_parts',
  {
    /** Also the order in which parts of one day were fitted. */
    id: integer().primaryKey(),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    partId: text()
      .notNull()
      .references(() => parts.id),
    /** Null: in there since before anybody wrote it down. */
    fittedAt: text(),
    /** Null: still in there. */
    removedAt: text(),
    /** 0, 1, ... among rows of one machine, part and fitting date. */
    copy: integer().notNull(),
  },
  (t) => [
    // Null dates are never equal to one another here; the import compares those itself.
    uniqueIndex('fitted_parts_once').on(t.machineTag, t.partId, t.fittedAt, t.copy),
    index('fitted_parts_by_part').on(t.partId),
  ],
)

/** What was read, measured or typed about a machine. Claims from data sheets and platform tables are derived. */
export const limits = sqliteTable(
  'limits',
  {
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    /** A LimitKey. */
    key: text().notNull(),
    source: text().notNull(),
    /** JSON by key, as core/limits types it. */
    value: text({ mode: 'json' }).$type<unknown>().notNull(),
    at: text(),
    note: text(),
    pinned: integer({ mode: 'boolean' }).notNull().default(false),
  },
  (t) => [primaryKey({ columns: [t.machineTag, t.key, t.source] })],
)

/**
 * What was claimed before something else was, or before a part went that it hung on: limits as of a day. Rows are only
 * added.
 */
export const pastLimits = sqliteTable(
  'past_limits',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    /** A LimitKey. */
    key: text().notNull(),
    source: text().notNull(),
    value: text({ mode: 'json' }).$type<unknown>().notNull(),
    at: text(),
    note: text(),
    pinned: integer({ mode: 'boolean' }).notNull().default(false),
    /** When it stopped being claimed. */
    endedAt: text().notNull(),
  },
  (t) => [index('past_limits_by_machine').on(t.machineTag)],
)

/**
 * Firmware tables that machines gave of themselves, newest last: what the next one is held against. Serial numbers, asset
 * tags and UUIDs are not in them. Rows are only added.
 */
export const readings = sqliteTable(
  'readings',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    at: text().notNull(),
    /** JSON: as core/firmwareTable types it. */
    firmwareTable: text({ mode: 'json' }).$type<unknown>().notNull(),
  },
  (t) => [index('readings_by_machine').on(t.machineTag)],
)

/**
 * Firmware tables that owners sent from their pages: proposals, until the shop takes one (then it is a reading) or puts it
 * aside. Of each owner one waits at a time.
 */
export const ownerReadings = sqliteTable(
  'owner_readings',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    /** Who sent it. Null: the owner whom nobody wrote down. */
    customerId: text().references(() => customers.id),
    at: text().notNull(),
    /** JSON: as core/firmwareTable types it. */
    firmwareTable: text({ mode: 'json' }).$type<unknown>().notNull(),
    takenAt: text(),
    asideAt: text(),
  },
  (t) => [index('owner_readings_by_machine').on(t.machineTag)],
)

/** Pictures an owner or the builder took: a label, the inside of a case. */
export const photos = sqliteTable(
  'photos',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    requestId: integer().references(() => ownerRequests.id),
    questionId: text().references(() => questions.id),
    takenBy: text().notNull(),
    mediaType: text().notNull(),
    bytes: blob({ mode: 'buffer' }).notNull(),
    at: text().notNull(),
    note: text(),
  },
  (t) => [index('photos_by_machine').on(t.machineTag)],
)

/** Links that only one owner has. The link itself is not stored, only its hash. */
export const ownerLinks = sqliteTable(
  'owner_links',
  {
    tokenHash: text().primaryKey(),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    /** Whose link it is; the next owner gets another. */
    customerId: text().references(() => customers.id),
    createdAt: text().notNull(),
    expiresAt: text().notNull(),
    revokedAt: text(),
  },
  (t) => [index('owner_links_by_machine').on(t.machineTag)],
)

/** Warranty of one fitted part: until when, by whom, what ends it. */
export const warranties = sqliteTable(
  'warranties',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    partId: text()
      .notNull()
      .references(() => parts.id),
    jobId: text().references(() => jobs.id),
    /** shop or maker. */
    givenBy: text().notNull(),
    from: text().notNull(),
    until: text().notNull(),
    endsWith: text(),
  },
  (t) => [index('warranties_by_machine').on(t.machineTag), index('warranties_by_end').on(t.until)],
)

/**
 * A machine on its way out of the shop. How far the sale is follows from what is kept of the machine; here is only what
 * nothing else tells: money, what was left out, what was looked at, and when it was handed over.
 */
export const sales = sqliteTable('sales', {
  machineTag: text()
    .primaryKey()
    .references(() => machines.tag),
  startedAt: text().notNull(),
  /** What the buyer pays. Null: nobody wrote it down. */
  priceMinor: integer(),
  /** What it cost beside its parts. */
  otherCostMinor: integer(),
  /** JSON list of steps, as core/sale names them. */
  leftOut: text({ mode: 'json' }).$type<unknown>().notNull(),
  /** The machine was made by this sale; else it was written down before. */
  madeMachine: integer({ mode: 'boolean' }).notNull().default(true),
  /** The buyer was written down by this sale. */
  madeCustomer: integer({ mode: 'boolean' }).notNull().default(false),
  sheetSeenAt: text(),
  /** JSON: the builder's own words in the message; null: no message was written. */
  words: text({ mode: 'json' }).$type<unknown>(),
  handedAt: text(),
})

/** One part of a sale a row, with what it cost the shop. What came from the shelf can go back there. */
export const saleParts = sqliteTable(
  'sale_parts',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => sales.machineTag),
    partId: text()
      .notNull()
      .references(() => parts.id),
    /** Null: not from the shelf. */
    itemId: text().references(() => shelfItems.id),
    costMinor: integer(),
  },
  (t) => [index('sale_parts_by_machine').on(t.machineTag), index('sale_parts_by_item').on(t.itemId)],
)

/** Limits sheets as they were handed out, with the message that went along. */
export const handedSheets = sqliteTable(
  'handed_sheets',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    at: text().notNull(),
    /** The sheet as JSON, whole, as core/sheet types it. */
    sheet: text({ mode: 'json' }).$type<unknown>().notNull(),
    subject: text(),
    message: text(),
  },
  (t) => [index('handed_sheets_by_machine').on(t.machineTag)],
)

/** Who owned a machine before its present owner. */
export const formerOwners = sqliteTable(
  'former_owners',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    customerId: text().references(() => customers.id),
    until: text().notNull(),
  },
  (t) => [index('former_owners_by_machine').on(t.machineTag)],
)

/**
 * Owners who said that they no longer have a machine. It stays theirs in the records until the shop writes down who has it
 * now; until then nothing is asked of them about it and nothing of them is shown for it.
 */
export const ownerPartings = sqliteTable(
  'owner_partings',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    /** Who said so. Null: the owner whom nobody wrote down. */
    customerId: text().references(() => customers.id),
    saidAt: text().notNull(),
    /** They have it after all. */
    takenBackAt: text(),
    /** The shop wrote down who has it now. */
    settledAt: text(),
  },
  (t) => [index('owner_partings_by_machine').on(t.machineTag)],
)
