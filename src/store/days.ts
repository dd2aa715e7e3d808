import { asc, eq, getTableColumns, is, isNotNull } from 'drizzle-orm'
import { SQLiteTable } from 'drizzle-orm/sqlite-core'
import * as schema from '../../db/schema.ts'
import type { Db } from './open.ts'

/** Kept as they were said: an answer and a sheet are snapshots, and a mail quotes them. */
const SNAPSHOTS: readonly SQLiteTable[] = [schema.answers, schema.messages, schema.handedSheets]

/** A column with an instant: `at`, `soldAt`. When a customer comes (`bookedFor`) is a time of day and stays one. */
const isInstant = (column: string): boolean => /^at$|At$/.test(column)

/** Moves every stored instant by `move`, which must keep their order. */
export async function moveInstants(tx: Db, move: (at: string) => string): Promise<void> {
  for (const table of Object.values(schema)) {
    if (!is(table, SQLiteTable) || SNAPSHOTS.includes(table)) continue
    for (const [name, column] of Object.entries(getTableColumns(table))) {
      if (!isInstant(name)) continue
      const rows = await tx
        .selectDistinct({ at: column })
        .from(table)
        .where(isNotNull(column))
        .orderBy(asc(column))
      const moves = rows.flatMap(({ at }) => {
        const to = typeof at === 'string' ? move(at) : at
        return to === at ? [] : [{ from: at, to }]
      })
      // Where an instant moves to one that is moved itself, that one goes first.
      const isForward = moves.some(({ from, to }) => String(to) > String(from))
      for (const { from, to } of isForward ? moves.reverse() : moves)
        await tx
          .update(table)
          .set({ [name]: to })
          .where(eq(column, from))
    }
  }
}
