import { sql } from 'drizzle-orm'
import { check, index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'
import { machines } from './machines.ts'
import { answers, questions } from './questions.ts'
import { settings, titles } from './runs.ts'
import { parts, shelfItems } from './shelf.ts'
import { customers } from './shop.ts'

// Agreed changes on their way.

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
    /** Of a missed promise: what was checked, and what the owner can choose, a line each. */
    missChecked: text(),
    missChoices: text(),
  },
  (t) => [
    index('jobs_by_machine').on(t.machineTag),
    index('jobs_by_question').on(t.questionId),
    index('jobs_by_state').on(t.state),
    index('jobs_by_date').on(t.agreedAt),
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
