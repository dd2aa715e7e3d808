import { createClient } from '@libsql/client'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import { MIGRATIONS } from './migrate.ts'

/** What is wrong with a database file; words for each stand where it is told. */
export const COPY_FAILURES = [
  ...['not a database', 'damaged', 'foreign keys', 'another program', 'newer', 'rows differ'],
  ...['is there already', 'no room', 'cannot be written', 'on a server', 'failed'],
] as const
export type CopyFailure = (typeof COPY_FAILURES)[number]

/** What a database file holds, told after it was opened and looked through. */
export type DatabaseContents = {
  /** How many migrations it has had. */
  readonly schemaVersion: number
  /** Rows of each table. */
  readonly rowsOf: Readonly<Record<string, number>>
  readonly rows: number
  /** The newest thing that is written down in it, ISO 8601 UTC. */
  readonly newestAt?: string | undefined
}

export type Looked =
  | { readonly ok: true; readonly value: DatabaseContents }
  | { readonly ok: false; readonly failure: CopyFailure; readonly schemaVersion?: number }

/** How many migrations this program knows. */
export const schemaVersionHere = (): number => readMigrationFiles({ migrationsFolder: MIGRATIONS }).length

type Client = ReturnType<typeof createClient>

const firstCell = async (client: Client, sql: string): Promise<unknown> =>
  (await client.execute(sql)).rows[0]?.[0]

/** The URL of a file; its path may hold signs that mean something in a URL. */
export const urlOf = (path: string): string => `file:${path.split('/').map(encodeURIComponent).join('/')}`

/**
 * Opens a database file and looks through all of it: integrity, references, schema, rows. The file may be written to
 * (a log beside it is taken in), so what must stay as it is has to be copied first.
 */
export async function lookThrough(path: string): Promise<Looked> {
  let client: Client
  try {
    client = createClient({ url: urlOf(path) })
  } catch {
    return { ok: false, failure: 'not a database' }
  }
  try {
    // Rows of the same message may be many; the first tells that something is wrong.
    if ((await firstCell(client, 'pragma integrity_check(1)')) !== 'ok')
      return { ok: false, failure: 'damaged' }
    const migrations = await migrationsIn(client)
    if (migrations === undefined) return { ok: false, failure: 'another program' }
    const known = readMigrationFiles({ migrationsFolder: MIGRATIONS })
    const newestKnown = known.at(-1)?.folderMillis ?? 0
    const schemaVersion = known.filter((m) => m.folderMillis <= migrations.newest).length
    if (migrations.newest > newestKnown)
      return { ok: false, failure: 'newer', schemaVersion: migrations.count }
    if ((await client.execute('pragma foreign_key_check')).rows.length > 0)
      return { ok: false, failure: 'foreign keys' }
    const rowsOf = await countRows(client)
    const newestAt = await newestIn(client)
    const rows = Object.values(rowsOf).reduce((sum, n) => sum + n, 0)
    return { ok: true, value: { schemaVersion, rowsOf, rows, ...(newestAt !== undefined && { newestAt }) } }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code.startsWith('SQLITE_NOTADB')) return { ok: false, failure: 'not a database' }
    return { ok: false, failure: 'damaged' }
  } finally {
    client.close()
  }
}

const MIGRATION_TABLE = '__drizzle_migrations'

/** How many migrations it has had, and the newest; undefined: none. */
export async function migrationsIn(client: Client): Promise<{ count: number; newest: number } | undefined> {
  const there = await firstCell(
    client,
    `select count(*) from sqlite_master where name = '${MIGRATION_TABLE}'`,
  )
  if (Number(there) === 0) return undefined
  const { rows } = await client.execute(`select count(*), max(created_at) from ${MIGRATION_TABLE}`)
  const [count, newest] = [Number(rows[0]?.[0]), Number(rows[0]?.[1])]
  return count > 0 ? { count, newest } : undefined
}

/** Rows of every table of ours. */
export async function countRows(client: Client): Promise<Record<string, number>> {
  const { rows } = await client.execute(
    `select name from sqlite_master where type = 'table' and name not like 'sqlite_%' and name not like '\\_\\_%' escape '\\' order by name`,
  )
  const counts: Record<string, number> = {}
  for (const row of rows) {
    const name = String(row[0])
    counts[name] = Number(await firstCell(client, `select count(*) from "${name.replaceAll('"', '""')}"`))
  }
  return counts
}

/** Dated things that grow as a shop works; each is there from some version on. */
const DATED = [
  ['questions', 'asked_at'],
  ['answers', 'at'],
  ['runs', 'at'],
  ['state_changes', 'at'],
  ['access_log', 'at'],
  ['changes', 'at'],
  ['mails', 'updated_at'],
] as const

async function newestIn(client: Client): Promise<string | undefined> {
  let newest: string | undefined
  for (const [table, column] of DATED) {
    const { rows } = await client.execute(
      `select 1 from pragma_table_info('${table}') where name = '${column}'`,
    )
    if (rows.length === 0) continue
    const at = await firstCell(client, `select max("${column}") from "${table}"`)
    if (typeof at === 'string' && (newest === undefined || at > newest)) newest = at
  }
  return newest
}

/**
 * Copies an open database to a file that is not there or empty, as it is at one instant, while others read and write it
 * (SQLite's documentation, "VACUUM", section 3). Rejects where that fails.
 */
export async function copyDatabase(from: string, to: string): Promise<Looked> {
  const client = createClient({ url: urlOf(from), timeout: 10_000 })
  let before: Record<string, number>
  let unchanged: boolean
  try {
    const version = await firstCell(client, 'pragma data_version')
    before = await countRows(client)
    await client.execute({ sql: 'vacuum into ?', args: [to] })
    unchanged = (await firstCell(client, 'pragma data_version')) === version
  } finally {
    client.close()
  }
  const looked = await lookThrough(to)
  // Where nobody wrote meanwhile the copy has exactly the same rows.
  if (looked.ok && unchanged && JSON.stringify(looked.value.rowsOf) !== JSON.stringify(before))
    return { ok: false, failure: 'rows differ' }
  return looked
}
