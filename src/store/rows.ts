import { type SQL, sql } from 'drizzle-orm'
import { toSnakeCase } from 'drizzle-orm/casing'
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core'
import type { Db } from './open.ts'

/** SQLite takes 32,766 values a statement; the widest table has 31 columns. */
const ROWS_A_STATEMENT = 200

/** Adds rows, many to a statement. */
export async function insertRows<T extends SQLiteTable>(
  tx: Db,
  table: T,
  rows: readonly T['$inferInsert'][],
) {
  for (const some of inBatches(rows)) await tx.insert(table).values(some)
}

/**
 * Adds rows or, where `key` is already there, replaces the other columns.
 * All rows must carry the same columns: a row without one would clear it.
 */
export async function upsertRows<T extends SQLiteTable>(
  tx: Db,
  table: T,
  key: readonly (SQLiteColumn & { readonly name: string })[],
  rows: readonly T['$inferInsert'][],
) {
  const keys = new Set(key.map((column) => column.name))
  for (const some of inBatches(rows)) {
    const others = Object.keys(some[0] ?? {}).filter((name) => !keys.has(name))
    const set = Object.fromEntries(
      others.map((name): [string, SQL] => [name, sql`excluded.${sql.identifier(toSnakeCase(name))}`]),
    ) as Parameters<ReturnType<ReturnType<typeof tx.insert<T>>['values']>['onConflictDoUpdate']>[0]['set']
    await tx
      .insert(table)
      .values(some)
      .onConflictDoUpdate({ target: [...key], set })
  }
}

/** At most 200 at a time. */
export function inBatches<R>(rows: readonly R[]): R[][] {
  const batches: R[][] = []
  for (let at = 0; at < rows.length; at += ROWS_A_STATEMENT)
    batches.push(rows.slice(at, at + ROWS_A_STATEMENT))
  return batches
}

/** Nulls of a row become absent keys, as core types write "unknown". */
export function withoutNulls<T extends object>(
  row: T,
): { [K in keyof T]: Exclude<T[K], null> | Absent<T[K]> } {
  const kept = Object.entries(row).filter(([, value]) => value !== null)
  return Object.fromEntries(kept) as { [K in keyof T]: Exclude<T[K], null> | Absent<T[K]> }
}
type Absent<V> = null extends V ? undefined : never

/** A stored word as one of a closed list. Throws when it is none: then something else wrote the database. */
export function oneOf<const W extends string>(words: readonly W[], word: string): W {
  const found = words.find((w) => w === word)
  if (found === undefined) throw new RangeError(`stored word is none of ${words.join(', ')}`)
  return found
}

/** Rows by key, in their order. (Map.groupBy needs a newer Node.) */
export function groupBy<K, R>(rows: readonly R[], keyOf: (row: R) => K): Map<K, R[]> {
  const groups = new Map<K, R[]>()
  for (const row of rows) {
    const group = groups.get(keyOf(row))
    if (group) group.push(row)
    else groups.set(keyOf(row), [row])
  }
  return groups
}

/** One piece of a list, with how many there are in all. */
export type Piece<T> = { readonly lines: readonly T[]; readonly total: number }
