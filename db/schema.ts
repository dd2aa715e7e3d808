import { sql } from 'drizzle-orm'
import {
  type AnySQLiteColumn,
  blob,
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

export const titles = sqliteTable('titles', {
  id: text().primaryKey(),
  name: text().notNull(),
  /** What it wants at 1920 x 1080, high; null = unknown. */
  memoryGB: real(),
  graphicsMemoryGB: real(),
  /** Its engine goes no faster. */
  capFps: real(),
})

/** Versions of titles, each with when it came out or was first seen here. */
export const titleVersions = sqliteTable(
  'title_versions',
  {
    titleId: text()
      .notNull()
      .references(() => titles.id),
    version: text().notNull(),
    at: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.titleId, t.version] })],
)

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
  /** The setting that this one is a step below of, and what is lower; both or neither. */
  loweredFromId: text().references((): AnySQLiteColumn => settings.id),
  loweredWhat: text(),
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
    /** Null: nobody looked. */
    largeBar: integer({ mode: 'boolean' }),
    /** Null: as the parts came. */
    processorLimitW: real(),
    cardLimitW: real(),
    /** The other definition of the 1 % low, and both of the 0.1 % low: core/gain/run. */
    low1MeanFps: real(),
    low01Fps: real(),
    low01MeanFps: real(),
    driverVersion: text(),
    scene: text(),
    roomC: real(),
    processorLoadC: real(),
    cardLoadC: real(),
    noiseDba: real(),
    /** The kept frame-time log it was computed from. */
    logId: text(),
    /** Somebody took it out; it can be brought back, and no reader but that one sees it. */
    takenOutAt: text(),
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
    /** What kind of question it is, and how it came, as core/question names them. */
    asks: text().notNull().default('what can I do'),
    cameBy: text().notNull().default('mail'),
    complaint: text(),
    /** JSON: the part the owner has in mind, its words and the owner's price. */
    partInMind: text({ mode: 'json' }).$type<unknown>(),
    plannedWidthPx: integer(),
    plannedHeightPx: integer(),
    plannedHz: real(),
    /** Up to the answer; from the yes on, the state of its job counts. */
    state: text().notNull().default('new'),
    remindAt: text(),
    /** Who asked; stays when the machine changes hands. */
    customerId: text().references(() => customers.id),
  },
  (t) => [
    index('questions_by_machine').on(t.machineTag),
    index('questions_by_date').on(t.askedAt),
    index('questions_by_state').on(t.state),
  ],
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
    /** When the owner was told, and the text as it was told; what was only written is not shown to an owner. */
    toldAt: text(),
    toldText: text(),
  },
  (t) => [
    index('messages_by_question').on(t.questionId),
    // One draft of a kind for an answer: writing it again replaces it.
    uniqueIndex('messages_once').on(t.answerId, t.kind),
    index('messages_by_machine').on(t.machineTag),
  ],
)

/** The one thing that is needed from an owner: a limit of the machine, asked for once, with or without a question. */
export const ownerRequests = sqliteTable(
  'owner_requests',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    questionId: text().references(() => questions.id),
    /** A LimitKey. */
    limitKey: text().notNull(),
    /** open, answered, withdrawn. */
    state: text().notNull(),
    askedAt: text().notNull(),
    remindAt: text(),
    answeredAt: text(),
    note: text(),
  },
  (t) => [
    index('owner_requests_by_machine').on(t.machineTag),
    index('owner_requests_by_question').on(t.questionId),
  ],
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

/** Agreed changes on their way. */
export const jobs = sqliteTable(
  'jobs',
  {
    /** J-0001. */
    id: text().primaryKey(),
    questionId: text()
      .notNull()
      .references(() => questions.id),
    /** The kept answer that holds the agreed option, its price and its gains. */
    answerId: integer()
      .notNull()
      .references(() => answers.id),
    optionId: text().notNull(),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    customerId: text().references(() => customers.id),
    /** shop or owner. */
    fittedBy: text().notNull(),
    /** As core/job names them. */
    state: text().notNull(),
    agreedAt: text().notNull(),
    /** JSON: what was promised, a row a title. */
    promise: text({ mode: 'json' }).$type<unknown>().notNull(),
    agreedMinor: integer().notNull(),
    bookedFor: text(),
    depositMinor: integer(),
    depositAt: text(),
    fittedAt: text(),
    settledMinor: integer(),
    settledAt: text(),
    toldAt: text(),
    remindAt: text(),
    note: text(),
  },
  (t) => [
    index('jobs_by_machine').on(t.machineTag),
    index('jobs_by_question').on(t.questionId),
    index('jobs_by_state').on(t.state),
  ],
)

/** Shelf items put aside for a job: open until they are released or built in. */
export const reservations = sqliteTable(
  'reservations',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    jobId: text()
      .notNull()
      .references(() => jobs.id),
    itemId: text()
      .notNull()
      .references(() => shelfItems.id),
    quantity: integer().notNull(),
    reservedAt: text().notNull(),
    releasedAt: text(),
    usedAt: text(),
  },
  (t) => [
    index('reservations_by_job').on(t.jobId),
    index('reservations_by_item').on(t.itemId),
    check('reservations_some', sql`${t.quantity} > 0`),
    check('reservations_end_once', sql`${t.releasedAt} is null or ${t.usedAt} is null`),
  ],
)

/** The checklist of a job, as core/job made it when the job was agreed. */
export const jobSteps = sqliteTable(
  'job_steps',
  {
    jobId: text()
      .notNull()
      .references(() => jobs.id),
    position: integer().notNull(),
    /** JSON: what is to be done. */
    step: text({ mode: 'json' }).$type<unknown>().notNull(),
    doneAt: text(),
  },
  (t) => [primaryKey({ columns: [t.jobId, t.position] })],
)

/** Parts that came out in a job, and what became of them. */
export const partsOut = sqliteTable(
  'parts_out',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    jobId: text()
      .notNull()
      .references(() => jobs.id),
    partId: text()
      .notNull()
      .references(() => parts.id),
    /** As core/job names them: to test, on the shelf, given back, scrapped. */
    outcome: text().notNull(),
    outcomeAt: text(),
    creditMinor: integer().notNull(),
    itemId: text().references(() => shelfItems.id),
    note: text(),
  },
  (t) => [index('parts_out_by_job').on(t.jobId)],
)

/** What owners say they measured at home: kept apart from the shop's runs and never mixed with them. */
export const ownerReports = sqliteTable(
  'owner_reports',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    machineTag: text()
      .notNull()
      .references(() => machines.tag),
    jobId: text().references(() => jobs.id),
    customerId: text().references(() => customers.id),
    at: text().notNull(),
    titleId: text()
      .notNull()
      .references(() => titles.id),
    settingId: text()
      .notNull()
      .references(() => settings.id),
    averageFps: real().notNull(),
    low1Fps: real(),
    note: text(),
  },
  (t) => [index('owner_reports_by_machine').on(t.machineTag)],
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
  (t) => [index('warranties_by_machine').on(t.machineTag)],
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

/** Every step of a question or a job from one state to the next. Rows are only added. */
export const stateChanges = sqliteTable(
  'state_changes',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** question or job. */
    about: text().notNull(),
    ref: text().notNull(),
    at: text().notNull(),
    from: text().notNull(),
    to: text().notNull(),
    because: text(),
  },
  (t) => [index('state_changes_by_ref').on(t.about, t.ref)],
)

/**
 * What a question, a run, a setting or an agreement was before somebody changed it. Rows are only added, so every change
 * can be read again and taken back.
 */
export const edits = sqliteTable(
  'edits',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** question, run, setting or job. */
    about: text().notNull(),
    ref: text().notNull(),
    at: text().notNull(),
    /** JSON: the whole of it as it was until then. */
    was: text({ mode: 'json' }).$type<unknown>().notNull(),
  },
  (t) => [index('edits_by_ref').on(t.about, t.ref)],
)

/** Forms that were sent, by a mark of all that was in them, and where they led: sent again, they lead there again. */
export const sentForms = sqliteTable(
  'sent_forms',
  {
    mark: text().primaryKey(),
    /** A path; the secret piece of an owner's link is left out of it. */
    ledTo: text().notNull(),
    at: text().notNull(),
  },
  (t) => [index('sent_forms_by_date').on(t.at)],
)

/** Who may sign in. */
export const accounts = sqliteTable(
  'accounts',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    name: text().notNull(),
    /** The name as it is compared: case and width do not count. */
    nameKey: text().notNull(),
    /** owner or staff. */
    role: text().notNull(),
    /** scrypt with its parameters and salt. Null: no password was chosen yet. */
    passwordHash: text(),
    passwordAt: text(),
    createdAt: text().notNull(),
    disabledAt: text(),
  },
  (t) => [
    uniqueIndex('accounts_by_name').on(t.nameKey),
    check('accounts_role', sql`${t.role} in ('owner', 'staff')`),
  ],
)

/** One-time codes with which an account gets a (new) password. Only their hashes are kept. */
export const accountCodes = sqliteTable(
  'account_codes',
  {
    codeHash: text().primaryKey(),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    expiresAt: text().notNull(),
  },
  (t) => [index('account_codes_by_account').on(t.accountId)],
)

/** Browsers that are signed in. Only the hash of what the cookie holds is kept. */
export const sessions = sqliteTable(
  'sessions',
  {
    tokenHash: text().primaryKey(),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    seenAt: text().notNull(),
    expiresAt: text().notNull(),
    /** Hash of the address it was opened from: known addresses are served while strangers try passwords. */
    addressHash: text().notNull(),
    /** When the password was last typed in this browser; null: before that was noted. */
    provenAt: text(),
  },
  (t) => [index('sessions_by_account').on(t.accountId)],
)

/** Keys of other programs. Only their hashes are kept. */
export const apiTokens = sqliteTable(
  'api_tokens',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    name: text().notNull(),
    tokenHash: text().notNull(),
    /** read or write; write reads too. */
    scope: text().notNull(),
    /** Whether names and addresses of owners are told. */
    people: integer({ mode: 'boolean' }).notNull().default(false),
    accountId: integer()
      .notNull()
      .references(() => accounts.id),
    createdAt: text().notNull(),
    usedAt: text(),
    revokedAt: text(),
  },
  (t) => [
    uniqueIndex('api_tokens_by_hash').on(t.tokenHash),
    check('api_tokens_scope', sql`${t.scope} in ('read', 'write')`),
  ],
)

/** Sign-ins that failed or are being looked at; kept for a day. Names and addresses only as hashes. */
export const signInAttempts = sqliteTable(
  'sign_in_attempts',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    nameHash: text().notNull(),
    addressHash: text().notNull(),
  },
  (t) => [
    index('sign_in_attempts_by_name').on(t.nameHash, t.at),
    index('sign_in_attempts_by_address').on(t.addressHash, t.at),
  ],
)

/**
 * Odd runs that somebody looked at and found to be so. It holds while what was looked at stays what it is: the run's own
 * figures, what other runs of the same parts there are, and about what the rest lets expect.
 */
export const runLooks = sqliteTable('run_looks', {
  runId: text()
    .primaryKey()
    .references(() => runs.id),
  at: text().notNull(),
  /** Name of the account or key; null: the demo's visitor. */
  by: text(),
  /** What the run said then, and its repeats: a look at other figures is none. */
  evidence: text().notNull(),
  expectedFps: real().notNull(),
})

/** Who did what that matters for access. Rows are only added (a trigger refuses changes), and go when they are old. */
export const accessLog = sqliteTable(
  'access_log',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    what: text().notNull(),
    /** Name of the account or key at that time; null: nobody who is known. */
    by: text(),
    /** What was acted on: name of an account or key, tag of a machine, name of a table. */
    about: text(),
    /** The beginning of the hash of the network it came from: the same one is the same mark. */
    place: text(),
  },
  (t) => [index('access_log_by_time').on(t.at)],
)

/**
 * How often what the gain model is fitted to has changed: one row, counted by triggers, so that whoever writes is counted.
 * A run more is told apart from any other change, because the model takes it in without being fitted anew.
 */
export const gainRevisions = sqliteTable(
  'gain_revisions',
  {
    id: integer().primaryKey(),
    runsAdded: integer().notNull(),
    /** Runs changed or taken out; titles, settings, figures of processors and cards, the shop's window. */
    changed: integer().notNull(),
  },
  (t) => [check('gain_revisions_one_row', sql`${t.id} = 1`)],
)

/** Where the next fit of the gain model starts from: one row. Losing it costs time and no figure. */
export const gainStarts = sqliteTable(
  'gain_starts',
  {
    id: integer().primaryKey(),
    start: text({ mode: 'json' }).$type<unknown>().notNull(),
    runs: integer().notNull(),
    /** How long that fit took, for whoever waits for the next one. */
    tookMs: integer().notNull(),
    at: text().notNull(),
  },
  (t) => [check('gain_starts_one_row', sql`${t.id} = 1`)],
)

/**
 * By what intervals of gains are multiplied since kept and missed promises called for it. The latest row that was not
 * taken back holds; none: 1. Triggers count each change among those that the gain model hangs on.
 */
export const widthSteps = sqliteTable('width_steps', {
  id: integer().primaryKey({ autoIncrement: true }),
  at: text().notNull(),
  /** Name of the account. */
  by: text(),
  was: real().notNull(),
  factor: real().notNull(),
  /** JSON: counts and coverage that spoke for it. */
  evidence: text({ mode: 'json' }).$type<unknown>().notNull(),
  takenBackAt: text(),
})

/** Frame-time logs as they were uploaded. */
export const frameLogs = sqliteTable(
  'frame_logs',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** The file's own name. */
    name: text().notNull(),
    addedAt: text().notNull(),
    /** Length and SHA-256 of the file, and bytes kept. Null while it is coming in: then nothing shows it. */
    size: integer(),
    sha256: text(),
    keptBytes: integer(),
    /** JSON: how it was read when a run was last saved from it. */
    choice: text({ mode: 'json' }).$type<unknown>(),
  },
  (t) => [index('frame_logs_by_sha256').on(t.sha256)],
)

/** The file through gzip, cut into pieces of at most 1,000,000 bytes: one behind the other they are one gzip file. */
export const frameLogPieces = sqliteTable(
  'frame_log_pieces',
  {
    logId: integer()
      .notNull()
      .references(() => frameLogs.id),
    position: integer().notNull(),
    bytes: blob({ mode: 'buffer' }).notNull(),
  },
  (t) => [primaryKey({ columns: [t.logId, t.position] })],
)
