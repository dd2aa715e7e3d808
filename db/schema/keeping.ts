import { sql } from 'drizzle-orm'
import { check, index, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core'

// What keeps the shop safe: copies, who works on what, and who changed what.

/** Copies of the database that were tried, good or not. */
export const backups = sqliteTable(
  'backups',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    /** Where the copy was put; null: none came of it. */
    path: text(),
    bytes: integer(),
    /** Rows of all tables together, counted in the copy. */
    rows: integer(),
    /** Number of migrations in the copy. */
    schemaVersion: integer(),
    /** When it was opened and checked. */
    checkedAt: text(),
    /** What stood in the way, by its code; null: nothing did. */
    failure: text(),
    /** When rotation took it away. */
    removedAt: text(),
  },
  (t) => [index('backups_by_time').on(t.at)],
)

/** Work that one process at a time does. A lease that ran out is anybody's. */
export const workLeases = sqliteTable('work_leases', {
  name: text().primaryKey(),
  holder: text().notNull(),
  until: text().notNull(),
})

/** Who is writing, while a write goes on: the triggers of store/changeTriggers.ts read it. */
export const changeBy = sqliteTable(
  'change_by',
  {
    id: integer().primaryKey(),
    by: text(),
    /** each: a row a change; sum: a row a table, for imports. */
    how: text().notNull().default('each'),
    /** The last change before this write began. */
    since: integer().notNull().default(0),
  },
  (t) => [check('change_by_one_row', sql`${t.id} = 1`)],
)

/** Who changed what. No value is in it, only which fields; rows are only added (triggers see to it), and go when they are old. */
export const changes = sqliteTable(
  'changes',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    at: text().notNull(),
    /** Name of the account or key, or what kind of work it was; null: written by another program. */
    by: text(),
    /** Name of the table. */
    kind: text().notNull(),
    /** Key of the row; null: many rows at once. */
    record: text(),
    /** added, changed or removed. */
    what: text().notNull(),
    /** Names of the fields that changed, with "," between. */
    fields: text(),
    rows: integer().notNull().default(1),
  },
  (t) => [
    index('changes_by_record').on(t.kind, t.record, t.id),
    index('changes_by_person').on(t.by, t.id),
    index('changes_by_time').on(t.at),
  ],
)
