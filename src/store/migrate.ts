import { fileURLToPath } from 'node:url'
import type { Client } from '@libsql/client'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import { faultOf } from './errors.ts'

export const MIGRATIONS = fileURLToPath(new URL('../../db/migrations', import.meta.url))

/** Where drizzle's own migrator keeps what was done; databases of before have it so. */
const TABLE = '__drizzle_migrations'

/** How long another process may take to bring a large shop up to date before this one gives up. */
const PATIENCE_MS = 60_000
const PAUSE_MS = 200

/**
 * Brings a database to the version of this program, all of it or nothing. Several processes may start on it at once: each
 * looks, inside the transaction, whether it still stands where it was found, so that no migration is done twice; who finds it
 * moved on looks anew.
 */
export async function migrate(client: Client): Promise<void> {
  const until = performance.now() + PATIENCE_MS
  for (;;) {
    const found = await reached(client)
    const missing = readMigrationFiles({ migrationsFolder: MIGRATIONS }).filter(
      ({ folderMillis }) => folderMillis > found,
    )
    if (missing.length === 0) return
    try {
      return void (await client.migrate([
        `create table if not exists ${TABLE} (id SERIAL PRIMARY KEY, hash text NOT NULL, created_at numeric)`,
        standsAt(found),
        ...missing.flatMap(({ sql, hash, folderMillis }) => [
          ...sql,
          { sql: `insert into ${TABLE} (hash, created_at) values (?, ?)`, args: [hash, folderMillis] },
        ]),
      ]))
    } catch (error) {
      const isHeld = /^(SQLITE_BUSY|SQLITE_LOCKED|TRANSACTION_BUSY)/.test(faultOf(error)?.code ?? '')
      if (!isHeld && (await reached(client)) === found) throw error
      if (performance.now() > until) throw error
      await new Promise((done) => setTimeout(done, PAUSE_MS))
    }
  }
}

/** Fails where another process has been quicker, because its word is no JSON. */
const standsAt = (found: number) => ({
  sql: `select json(case when coalesce(max(created_at), 0) = ? then 'true' else 'moved on' end) from ${TABLE}`,
  args: [found],
})

/** Instant of the newest migration it has had, 0 for a new one. */
async function reached(client: Client): Promise<number> {
  const { rows } = await client.execute({
    sql: 'select 1 from sqlite_master where name = ?',
    args: [TABLE],
  })
  if (rows.length === 0) return 0
  const newest = await client.execute(`select coalesce(max(created_at), 0) from ${TABLE}`)
  return Number(newest.rows[0]?.[0])
}
