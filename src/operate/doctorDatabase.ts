import { createClient } from '@libsql/client'
import { drizzle } from 'drizzle-orm/libsql'
import * as schema from '../../db/schema.ts'
import { backupAgeDays, isBackupOld } from '../core/backup.ts'
import type { Settings } from '../settings.ts'
import { isThere } from '../store/backupFiles.ts'
import { listBackups } from '../store/backups.ts'
import { lookThrough, migrationsIn, schemaVersionHere, urlOf } from '../store/databaseCopy.ts'
import { faultOf } from '../store/errors.ts'
import { serverTrouble } from '../store/mailLeases.ts'
import { clientOf, type Db } from '../store/open.ts'
import { isLoopback } from '../web/hosts.ts'
import { sayCopyFailure } from '../words/backups.ts'
import { DOCTOR_EN as W } from '../words/en/doctor.ts'
import { fill } from '../words/say.ts'
import { backupSettingsOf } from './commands.ts'
import type { Check } from './doctor.ts'

type Client = ReturnType<typeof createClient>

/** What the database tells; it is neither made nor migrated nor written to. */
export async function databaseChecks(settings: Settings, at: string): Promise<Check[]> {
  const path = backupSettingsOf(settings).databasePath
  if (path === undefined) return onServer(settings, at)
  if (!(await isThere(path)))
    return [{ name: 'database', standing: 'look', says: fill(W.database.none, { path }) }]
  const looked = await lookThrough(path)
  if (!looked.ok) return [{ name: 'database', standing: 'wrong', says: sayCopyFailure(looked.failure) }]
  const { schemaVersion, rows, newestAt } = looked.value
  const client = createClient({ url: urlOf(path), timeout: 2000 })
  try {
    const newest = newestAt ?? 'none'
    return [
      {
        name: 'database',
        standing: 'ok',
        says: fill(W.database.whole, { path, rows: String(rows), newest }),
      },
      version(schemaVersion),
      await writing(client),
      await log(client),
      ...clock(newestAt, at),
      ...(schemaVersion === schemaVersionHere() ? await kept(client, at, settings) : []),
    ]
  } finally {
    client.close()
  }
}

/** A server looks after its files and copies itself; the rest is looked at as in a file. */
async function onServer(settings: Settings, at: string): Promise<Check[]> {
  const backup: Check = { name: 'backup', standing: 'look', says: W.backup.server }
  let client: Client | undefined
  try {
    client = clientOf(settings.databaseUrl, settings.databaseToken)
    const clockThere = String(
      (await client.execute(`select strftime('%Y-%m-%dT%H:%M:%fZ', 'now')`)).rows[0]?.[0],
    )
    const migrations = await migrationsIn(client)
    const n = migrations?.count ?? 0
    return [
      { name: 'database', standing: 'ok', says: W.database.server },
      ...way(settings),
      ...(await references(client)),
      ...(migrations === undefined ? [] : [version(n)]),
      await writing(client),
      clockOf(clockThere, at),
      ...(n === schemaVersionHere() ? await kept(client, at) : []),
      backup,
    ]
  } catch (error) {
    const isRefused = faultOf(error)?.code === 'SERVER_REFUSED'
    const says = isRefused ? W.database.serverRefuses : W.database.serverAway
    return [{ name: 'database', standing: 'wrong', says }, ...way(settings), backup]
  } finally {
    client?.close()
  }
}

/** Over `http:` everybody on the way reads customers and token; within one computer there is nobody. */
function way({ databaseUrl }: Settings): Check[] {
  const { protocol, hostname, searchParams } = new URL(databaseUrl)
  const isPlain = protocol === 'http:' || searchParams.get('tls') === '0'
  if (!isPlain || isLoopback(hostname.replace(/^\[|\]$/g, ''))) return []
  return [{ name: 'database', standing: 'look', says: W.database.openly }]
}

async function references(client: Client): Promise<Check[]> {
  const { rows } = await client.execute('pragma foreign_keys')
  return Number(rows[0]?.[0]) === 1
    ? []
    : [{ name: 'database', standing: 'wrong', says: W.database.noReferences }]
}

/** Leases and due times are compared between computers, so their clocks have to agree. */
const APART_MS = 30_000

function clockOf(there: string, now: string): Check {
  const isApart = Math.abs(Date.parse(there) - Date.parse(now)) > APART_MS
  const says = fill(isApart ? W.clock.apart : W.clock.together, { now, there })
  return { name: 'clock', standing: isApart ? 'wrong' : 'ok', says }
}

function version(n: number): Check {
  const known = schemaVersionHere()
  const says = fill(n < known ? W.version.behind : W.version.current, { n: String(n), known: String(known) })
  return { name: 'version', standing: n < known ? 'look' : 'ok', says }
}

/** A write that is taken back at once. */
async function writing(client: Client): Promise<Check> {
  try {
    const tx = await client.transaction('write')
    try {
      // A write lock alone is given on a full or read-only disk too.
      await tx.execute('create table doctor_tries_to_write (x)')
    } finally {
      await tx.rollback()
    }
    return { name: 'writing', standing: 'ok', says: W.writing.ok }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown'
    if (code.startsWith('SQLITE_BUSY')) return { name: 'writing', standing: 'look', says: W.writing.busy }
    return { name: 'writing', standing: 'wrong', says: fill(W.writing.no, { code }) }
  }
}

async function log(client: Client): Promise<Check> {
  const mode = (await client.execute('pragma journal_mode')).rows[0]?.[0]
  return mode === 'wal'
    ? { name: 'log', standing: 'ok', says: W.log.ok }
    : { name: 'log', standing: 'look', says: W.log.no }
}

/** Computers set their clocks by a network, and two of them may differ by that much. */
const CLOCK_MS = 5 * 60_000

function clock(newestAt: string | undefined, now: string): Check[] {
  if (newestAt === undefined) return []
  const isBehind = Date.parse(newestAt) > Date.parse(now) + CLOCK_MS
  const says = fill(isBehind ? W.clock.behind : W.clock.ok, { now, newest: newestAt })
  return [{ name: 'clock', standing: isBehind ? 'wrong' : 'ok', says }]
}

/** What the rows tell; only where they are of this version. `settings`: with what is told of copies of ours. */
async function kept(client: Client, at: string, settings?: Settings): Promise<Check[]> {
  const db: Db = drizzle(client, { schema, casing: 'snake_case' })
  const count = async (sql: string, ...args: string[]): Promise<number> =>
    Number((await client.execute({ sql, args })).rows[0]?.[0] ?? 0)
  const accounts = await count('select count(*) from accounts where disabled_at is null')
  const address = await count(`select count(*) from shops where trim(address) <> ''`)
  const held = await count(`select count(*) from mails where state = 'held'`)
  const hourAgo = new Date(Date.parse(at) - 3_600_000).toISOString()
  const late = await count(
    `select count(*) from mails where state = 'approved' and paused_at is null and coalesce(due_at, approved_at) < ?`,
    hourAgo,
  )
  const trouble = await serverTrouble(db)
  const checks: Check[] = [
    accounts > 0
      ? { name: 'accounts', standing: 'ok', says: fill(W.accounts.ok, { n: String(accounts) }) }
      : { name: 'accounts', standing: 'look', says: W.accounts.none },
    address > 0
      ? { name: 'address', standing: 'ok', says: W.address.ok }
      : { name: 'address', standing: 'look', says: W.address.none },
  ]
  if (held > 0)
    checks.push({ name: 'outbox', standing: 'look', says: fill(W.outbox.held, { n: String(held) }) })
  if (late > 0)
    checks.push({ name: 'outbox', standing: 'look', says: fill(W.outbox.late, { n: String(late) }) })
  if (held === 0 && late === 0) checks.push({ name: 'outbox', standing: 'ok', says: W.outbox.ok })
  if (trouble !== undefined) {
    const { since, says } = trouble
    checks.push({ name: 'mail', standing: 'wrong', says: fill(W.mail.trouble, { since, says }) })
  }
  return settings === undefined ? checks : [...checks, ...(await backups(db, settings, at))]
}

const LOOKED_AT = 60

async function backups(db: Db, { backup }: Settings, at: string): Promise<Check[]> {
  const lines = await listBackups(db, LOOKED_AT)
  const there = []
  for (const b of lines)
    if (b.failure !== undefined || (b.path !== undefined && (await isThere(b.path)))) there.push(b)
  const days = backupAgeDays(there, at)
  const checks: Check[] = []
  const isOld = isBackupOld(there, at, backup.warnDays)
  const says = fill(days === undefined ? W.backup.never : isOld ? W.backup.old : W.backup.ok, {
    days: String(days ?? 0),
  })
  checks.push({ name: 'backup', standing: isOld ? 'wrong' : 'ok', says })
  const last = there[0]?.failure
  if (last !== undefined)
    checks.push({
      name: 'backup',
      standing: 'look',
      says: fill(W.backup.failed, { says: sayCopyFailure(last) }),
    })
  if (backup.folder === 'off') checks.push({ name: 'backup', standing: 'look', says: W.backup.off })
  return checks
}
