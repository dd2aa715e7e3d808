import { sql } from 'drizzle-orm'
import { blob, check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core'
import { jobs } from './jobs.ts'
import { machines } from './machines.ts'
import { messages, questions } from './questions.ts'
import { customers } from './shop.ts'

// Mails on their way, and what offers are held back by.

/** One mail to one person. From the approval on its bytes stand here, and these bytes are what is sent. */
export const mails = sqliteTable(
  'mails',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** As core/outbox names kinds and states. */
    kind: text().notNull(),
    state: text().notNull(),
    customerId: text().references(() => customers.id),
    machineTag: text().references(() => machines.tag),
    questionId: text().references(() => questions.id),
    jobId: text().references(() => jobs.id),
    /** The drafted message it was made of, whose words it follows until it is approved. */
    messageId: integer().references(() => messages.id),
    toName: text().notNull(),
    toAddress: text().notNull(),
    /** The address as it is compared: case does not count. */
    toKey: text().notNull(),
    subject: text().notNull(),
    html: text().notNull(),
    text: text().notNull(),
    /** JSON: the mail in words, of which subject, HTML and text are drawn (`mail/keptNotice.ts`); null for answer, sheet and test. */
    notice: text({ mode: 'json' }).$type<unknown>(),
    /** JSON: what a person changed of those words. */
    edits: text({ mode: 'json' }).$type<unknown>(),
    /** Its Message-ID with angle brackets; the same for every try, so that a receiver can see a repeat as one. */
    rfcMessageId: text().notNull(),
    /** What an offer's one-click address ends with. */
    unsubscribeToken: text(),
    /** The whole mail as it was approved (RFC 5322). */
    bytes: blob({ mode: 'buffer' }),
    createdAt: text().notNull(),
    updatedAt: text().notNull(),
    approvedAt: text(),
    approvedBy: text(),
    /** Not to be tried before. */
    dueAt: text(),
    /** Its round is paused since: it is not due until that goes on. */
    pausedAt: text(),
    tries: integer().notNull().default(0),
    firstTriedAt: text(),
    /** The process that has it, until when, and whether the end of the mail may have left it. */
    leaseId: text(),
    leaseUntil: text(),
    handedAt: text(),
    sentAt: text(),
    cameBackAt: text(),
    /** What the last step says, such as a server's reply. */
    says: text(),
  },
  (t) => [
    uniqueIndex('mails_by_message_id').on(t.rfcMessageId),
    uniqueIndex('mails_by_unsubscribe').on(t.unsubscribeToken),
    index('mails_due').on(t.state, t.dueAt),
    // One group of the outbox in its order, and all that is looked through for words: rows are long, these are not.
    index('mails_by_state').on(t.state, t.updatedAt, t.id),
    index('mails_in_search').on(t.updatedAt, t.id, t.state, t.toName, t.toAddress, t.subject, t.machineTag),
    index('mails_by_customer').on(t.customerId),
    index('mails_by_address').on(t.toKey),
    index('mails_by_message').on(t.messageId),
    index('mails_by_job').on(t.jobId),
    index('mails_by_machine').on(t.machineTag),
  ],
)

/** What happened to a mail. Rows are only added (a trigger refuses changes). */
export const mailEvents = sqliteTable(
  'mail_events',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    mailId: integer()
      .notNull()
      .references(() => mails.id),
    at: text().notNull(),
    /** As core/outbox names them. */
    event: text().notNull(),
    /** Who did it; null for the program. */
    by: text(),
    says: text(),
  },
  (t) => [index('mail_events_by_mail').on(t.mailId)],
)

/** When a mail was taken to be sent, by any process: the rate is held over all of them. */
export const mailTakings = sqliteTable(
  'mail_takings',
  { id: integer().primaryKey({ autoIncrement: true }), at: text().notNull(), mails: integer().notNull() },
  (t) => [index('mail_takings_by_at').on(t.at)],
)

/** What holds offers back; one row. */
export const offerRules = sqliteTable(
  'offer_rules',
  {
    id: integer().primaryKey(),
    quietFromHour: integer().notNull(),
    quietUntilHour: integer().notNull(),
    capOffers: integer().notNull(),
    capDays: integer().notNull(),
  },
  (t) => [check('offer_rules_one_row', sql`${t.id} = 1`)],
)

/** How a mail server was met last, one row: why everything waits. */
export const mailServerState = sqliteTable(
  'mail_server_state',
  {
    id: integer().primaryKey(),
    failures: integer().notNull(),
    since: text().notNull(),
    nextTryAt: text().notNull(),
    says: text().notNull(),
  },
  (t) => [check('mail_server_state_one_row', sql`${t.id} = 1`)],
)
