import { sql } from 'drizzle-orm'
import {
  check,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core'

/**
 * All tables. Column names are the snake_case of the keys. Instants (`...At`) are ISO 8601 UTC text, so that they
 * sort as they happened; money (`...Minor`) is a whole number of minor units of the shop's one currency.
 * A null is "not known" or "not given", never zero. JSON columns are checked where they are written and read.
 */

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
    smallestGainPct: real().notNull(),
    runWindowDays: real().notNull(),
    priceValidDays: real().notNull(),
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

export const machines = sqliteTable(
  'machines',
  {
    /** As written on the case label. */
    tag: text().primaryKey(),
    customerId: text().references(() => customers.id),
    soldAt: text(),
    note: text(),
  },
  (t) => [index('machines_by_customer').on(t.customerId)],
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

export const tradeIns = sqliteTable('trade_ins', {
  partId: text()
    .primaryKey()
    .references(() => parts.id),
  creditMinor: integer().notNull(),
  pricedAt: text().notNull(),
})

export const titles = sqliteTable('titles', { id: text().primaryKey(), name: text().notNull() })

export const settings = sqliteTable('settings', {
  id: text().primaryKey(),
  widthPx: integer().notNull(),
  heightPx: integer().notNull(),
  preset: text().notNull(),
  rayTracing: integer({ mode: 'boolean' }).notNull(),
  /** Mode name; null = off. */
  upscaler: text(),
  frameGeneration: integer({ mode: 'boolean' }).notNull(),
  capFps: real(),
})

/** The shop's own measurements, with what was fitted then: machines change, runs do not. */
export const runs = sqliteTable(
  'runs',
  {
    id: text().primaryKey(),
    at: text().notNull(),
    /** Null: measured on a test bench. */
    machineTag: text().references(() => machines.tag),
    processorId: text()
      .notNull()
      .references(() => parts.id),
    cardId: text()
      .notNull()
      .references(() => parts.id),
    /** Memory and link as they ran, not as their labels say. */
    memoryType: text().notNull(),
    memoryRateMts: real().notNull(),
    memoryChannels: integer().notNull(),
    memoryTotalGB: real().notNull(),
    linkGen: real().notNull(),
    linkLanes: integer().notNull(),
    titleId: text()
      .notNull()
      .references(() => titles.id),
    titleVersion: text().notNull(),
    settingId: text()
      .notNull()
      .references(() => settings.id),
    averageFps: real().notNull(),
    low1Fps: real(),
    note: text(),
  },
  (t) => [index('runs_by_title').on(t.titleId), index('runs_by_machine').on(t.machineTag)],
)

export const questions = sqliteTable(
  'questions',
  {
    id: text().primaryKey(),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    words: text().notNull(),
    askedAt: text().notNull(),
    displayWidthPx: integer(),
    displayHeightPx: integer(),
    displayHz: real(),
    targetFps: real().notNull(),
    budgetMinor: integer(),
    /** JSON list of wishes, as core/question names them. */
    wishes: text({ mode: 'json' }).$type<unknown>().notNull(),
  },
  (t) => [index('questions_by_machine').on(t.machineTag), index('questions_by_date').on(t.askedAt)],
)

/** Titles of a question, in the owner's order. */
export const wantedTitles = sqliteTable(
  'wanted_titles',
  {
    questionId: text()
      .notNull()
      .references(() => questions.id),
    position: integer().notNull(),
    titleId: text()
      .notNull()
      .references(() => titles.id),
    settingId: text()
      .notNull()
      .references(() => settings.id),
    weight: real().notNull(),
  },
  (t) => [primaryKey({ columns: [t.questionId, t.position] })],
)

/** Computed answers. Rows are only added: an old answer stays what it was. */
export const answers = sqliteTable(
  'answers',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    questionId: text()
      .notNull()
      .references(() => questions.id),
    at: text().notNull(),
    /** JSON of what computed it: facts, rules, gain, ranking. Also in the snapshot; here for a quick look. */
    versions: text({ mode: 'json' }).$type<unknown>().notNull(),
    /** The whole answer as JSON, its inputs included. */
    snapshot: text({ mode: 'json' }).$type<unknown>().notNull(),
  },
  (t) => [index('answers_by_question').on(t.questionId)],
)

/** Mails and chat texts a person prepared from an answer. */
export const messages = sqliteTable(
  'messages',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    kind: text().notNull(),
    questionId: text()
      .notNull()
      .references(() => questions.id),
    answerId: integer()
      .notNull()
      .references(() => answers.id),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    subject: text().notNull(),
    html: text().notNull(),
    text: text().notNull(),
    /** What the builder changed by hand, as JSON, so that the draft can be opened again. */
    edits: text({ mode: 'json' }).$type<unknown>().notNull(),
    status: text().notNull(),
    createdAt: text().notNull(),
    updatedAt: text().notNull(),
  },
  (t) => [
    index('messages_by_question').on(t.questionId),
    // One draft of a kind for an answer: writing it again replaces it.
    uniqueIndex('messages_once').on(t.answerId, t.kind),
    index('messages_by_machine').on(t.machineTag),
  ],
)
