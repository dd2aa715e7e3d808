import { sql } from 'drizzle-orm'
import { index, integer, primaryKey, real, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core'
import { machines } from './machines.ts'
import { settings, titles } from './runs.ts'
import { customers } from './shop.ts'

// Questions, answers and messages, and the steps of questions and jobs.

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
    /** The least that a drive should hold, for the wish for more space. */
    spaceGB: real(),
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
    index('questions_by_state_and_date').on(t.state, t.askedAt, t.id),
    index('questions_by_reminder').on(t.remindAt).where(sql`${t.remindAt} is not null`),
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
    // What was told lately: a day's column stands behind whole mails, so rows are long to walk through.
    index('messages_by_told').on(t.toldAt, t.questionId).where(sql`${t.toldAt} is not null`),
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
  (t) => [index('state_changes_by_ref').on(t.about, t.ref), index('state_changes_by_date').on(t.about, t.at)],
)

/**
 * What a question, a run, a setting, an agreement, an item of the shelf or prices of work were before somebody changed
 * them. Rows are only added, so every change can be read again and taken back.
 */
export const edits = sqliteTable(
  'edits',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** question, run, setting, job, shelf item or work prices. */
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
