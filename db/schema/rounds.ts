import { sql } from 'drizzle-orm'
import { check, index, integer, primaryKey, real, sqliteTable, text, unique } from 'drizzle-orm/sqlite-core'
import { jobs } from './jobs.ts'
import { machines } from './machines.ts'
import { mails } from './outbox.ts'
import { answers, questions } from './questions.ts'
import { findableParts, shelfItems } from './shelf.ts'
import { customers } from './shop.ts'

// Rounds of offers to previous customers.

/** One round of offers. */
export const rounds = sqliteTable('rounds', {
  /** R-0001. */
  id: text().primaryKey(),
  /** As core/round names kinds and states. */
  kind: text().notNull(),
  state: text().notNull(),
  /** JSON: what it was made of. */
  source: text({ mode: 'json' }).$type<unknown>().notNull(),
  createdAt: text().notNull(),
  createdBy: text(),
  /** Until when a yes holds. */
  validUntil: text().notNull(),
  /** Yeses so far, those that were taken back included. */
  yeses: integer().notNull().default(0),
  /** Every offer in it is worked out. */
  preparedAt: text(),
  /** Why that ended early. */
  trouble: text(),
  begunAt: text(),
  begunBy: text(),
  /** Of a deal: what could be bought, how many yeses are wanted, and what came of it. */
  findableId: text().references(() => findableParts.id),
  wantedYeses: integer(),
  boughtPieces: integer(),
  boughtAt: text(),
})

/** Shelf items that a round may give away, and how many of each. */
export const roundItems = sqliteTable(
  'round_items',
  {
    roundId: text()
      .notNull()
      .references(() => rounds.id),
    itemId: text()
      .notNull()
      .references(() => shelfItems.id),
    quantity: integer().notNull(),
    /** What a piece cost the shop, where it was said. */
    costMinor: integer(),
  },
  (t) => [primaryKey({ columns: [t.roundId, t.itemId] }), check('round_items_some', sql`${t.quantity} > 0`)],
)

/** One customer in a round, with one machine. */
export const roundSeats = sqliteTable(
  'round_seats',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    roundId: text()
      .notNull()
      .references(() => rounds.id),
    position: integer().notNull(),
    customerId: text()
      .notNull()
      .references(() => customers.id),
    machineTag: text().references(() => machines.tag),
    questionId: text().references(() => questions.id),
    itemId: text().references(() => shelfItems.id),
    /** As a ranking names its options. */
    optionId: text(),
    /** The useful gain in percent as it was found. */
    pct: real(),
    dueMinor: integer(),
    /** JSON: pieces of shelf items that a yes takes. */
    needs: text({ mode: 'json' }).$type<unknown>(),
    /** JSON: the whole answer while nobody was written to; then `answerId` has it. */
    draft: text({ mode: 'json' }).$type<unknown>(),
    answerId: integer().references(() => answers.id),
    /** As core/round names them. */
    standing: text().notNull(),
    /** Why they are left out: as core/round names reasons, and a person's own words. */
    leftBecause: text(),
    leftNote: text(),
    yesNumber: integer(),
    saidAt: text(),
    /** Who wrote the yes or no down; null where they said it themselves, by their link. */
    saidBy: text(),
    jobId: text().references(() => jobs.id),
    mailId: integer().references(() => mails.id),
    /** When their mail was approved to go out. */
    askedAt: text(),
    /** When it was told to them that it is gone, or that nothing is bought. */
    toldMailId: integer().references(() => mails.id),
    /** Why a yes could not be put aside by itself. */
    trouble: text(),
  },
  (t) => [
    unique('round_seats_once').on(t.roundId, t.customerId, t.machineTag),
    index('round_seats_by_customer').on(t.customerId),
    index('round_seats_by_mail').on(t.mailId),
    index('round_seats_by_job').on(t.jobId),
  ],
)

/** Links by which somebody says yes or no: only their hashes. */
export const roundLinks = sqliteTable('round_links', {
  tokenHash: text().primaryKey(),
  seatId: integer()
    .notNull()
    .references(() => roundSeats.id),
  createdAt: text().notNull(),
})

/** What happened in a round. Rows are only added (a trigger refuses changes). */
export const roundEvents = sqliteTable(
  'round_events',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    roundId: text()
      .notNull()
      .references(() => rounds.id),
    seatId: integer().references(() => roundSeats.id),
    at: text().notNull(),
    event: text().notNull(),
    /** Who did it; null for the program and for owners by their link. */
    by: text(),
    says: text(),
  },
  (t) => [index('round_events_by_round').on(t.roundId)],
)
