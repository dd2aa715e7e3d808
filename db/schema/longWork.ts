import { index, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core'

/**
 * Work that takes longer than a page waits: matchings of the shelf to customers, plans of platforms. What it is worked out
 * from is kept while it is under way, so that it goes on after a stop and comes out the same.
 */
export const longWorks = sqliteTable(
  'long_works',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** match or reach. */
    kind: text().notNull(),
    name: text(),
    askedAt: text().notNull(),
    /** waiting, under way, done, called off, failed. */
    state: text().notNull(),
    /** JSON: what is asked, as core/matching and core/reach say. */
    ask: text({ mode: 'json' }).$type<unknown>().notNull(),
    /** JSON: the instant and everything it is worked out from. Only while it is under way. */
    inputs: text({ mode: 'json' }).$type<unknown>(),
    endedAt: text(),
    /** JSON: what came out; the ids of customers and machines, no names. */
    result: text({ mode: 'json' }).$type<unknown>(),
  },
  (t) => [index('long_works_by_kind').on(t.kind, t.state)],
)
