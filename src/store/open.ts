import { AsyncLocalStorage } from 'node:async_hooks'
import { mkdir, open, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { type Client, createClient, type ResultSet } from '@libsql/client'
import { sql } from 'drizzle-orm'
import { drizzle } from 'drizzle-orm/libsql'
import type { BaseSQLiteDatabase } from 'drizzle-orm/sqlite-core'
import * as schema from '../../db/schema.ts'
import { sayNobodyWrites, sayWhoWrites } from './changes.ts'
import { ensureChangeTriggers } from './changeTriggers.ts'
import { faultOf, problemOf, StoreFault, withoutParameters } from './errors.ts'
import { migrate } from './migrate.ts'

/** The database or an open transaction: every function of store/ takes one first. */
export type Db = BaseSQLiteDatabase<'async', ResultSet, typeof schema>

export type Store = {
  readonly db: Db
  /** Runs `work` in one transaction, after all writes before it. Rejects with a StoreFault; nothing is kept then. */
  readonly write: <T>(work: (tx: Db) => Promise<T>) => Promise<T>
  /** Waits for the last write. */
  readonly close: () => Promise<void>
}

/** How long another process may hold the file before a write gives up. Within a process the lane below waits. */
const BUSY_MS = 2000

/** How long a server may take over one request. Without an end a server that hangs would hold up every write after it. */
const SERVER_MS = 30_000

/** The driver for a libSQL URL; `token` is what a server asks for. */
export const clientOf = (url: string, token?: string): Client =>
  createClient({
    ...{ url, timeout: BUSY_MS },
    ...(token !== undefined && { authToken: token }),
    fetch: (request: Request) => fetch(request, { signal: AbortSignal.timeout(SERVER_MS) }),
  })

/**
 * Opens (and makes, and migrates) the database at a libSQL URL, such as `file:data/stillfits.db`, or on a server.
 * The folder of a file is made when it is missing, and the file is its owner's alone. Rejects with a StoreFault when it cannot be opened.
 */
export async function openStore(url: string, token?: string): Promise<Store> {
  const path = pathOf(url)
  const client = await reaching(async () => {
    if (path !== undefined) {
      await makeFolder(dirname(path))
      await makePrivateFile(path)
    }
    return clientOf(url, token)
  })
  const db = drizzle(client, { schema, casing: 'snake_case' })
  try {
    await reaching(async () => {
      if (path === undefined) await checkServer(client)
      else await db.run(sql`pragma journal_mode = wal`)
    })
    await withoutParameters(async () => {
      await migrate(client)
      await ensureChangeTriggers(client)
    })
  } catch (error) {
    client.close()
    throw error
  }

  const inside = new AsyncLocalStorage<true>()
  let lane: Promise<unknown> = Promise.resolve()
  /** One write transaction at a time in this process: a second would block the event loop, then fail busy. */
  const write: Store['write'] = (work) => {
    if (inside.getStore()) throw new Error('write() inside write(): pass the transaction along instead')
    const run = lane.then(async () => {
      try {
        return await inside.run(true, () => withoutParameters(() => db.transaction(told(work))))
      } catch (error) {
        // The driver leaves the statement that found the file locked open on its connection, and every later
        // commit there fails ("SQL statements in progress", seen with 0.18.0). New connections have no such past.
        if (path !== undefined && faultOf(error)?.code.startsWith('SQLITE_BUSY')) await client.reconnect()
        throw error
      }
    })
    lane = run.catch(() => {})
    return run
  }
  return {
    db,
    write,
    close: async () => {
      await lane
      client.close()
    },
  }
}

/** Each stream of a server is a connection of its own, so it must check references by itself: nothing said on one holds on the next. */
async function checkServer(client: Client): Promise<void> {
  const { rows } = await client.execute('pragma foreign_keys')
  if (Number(rows[0]?.[0]) !== 1)
    throw new StoreFault('FOREIGN_KEYS_OFF', 'references are not checked', undefined)
}

/** The work with who does it written down for the log of changes, for as long as the transaction lasts. */
const told =
  <T>(work: (tx: Db) => Promise<T>) =>
  async (tx: Db): Promise<T> => {
    await sayWhoWrites(tx)
    const result = await work(tx)
    await sayNobodyWrites(tx)
    return result
  }

/** What fails before the first statement ran is not ours: the address leads to no database. */
async function reaching<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await withoutParameters(work)
  } catch (error) {
    if (problemOf(error) !== undefined && faultOf(error)?.code !== 'SERVER_AWAY') throw error
    // The driver's own message may hold the address with its token.
    throw new StoreFault('UNREACHABLE', 'no database at this address', undefined)
  }
}

/** Makes a folder and those above it. Node's own way of it never ends where none can be made (below /proc, 20.19). */
export async function makeFolder(folder: string): Promise<void> {
  if (await isFolder(folder)) return
  if (dirname(folder) !== folder) await makeFolder(dirname(folder))
  try {
    await mkdir(folder)
  } catch (error) {
    // Another process may have made it meanwhile.
    if (!(await isFolder(folder))) throw error
  }
}

const OWNER_ALONE = 0o600

/**
 * A new file holds people's names, so no other user of this computer may read it. SQLite gives the files beside it
 * (`-wal`, `-shm`) the same mode as the database. A file that is there keeps its mode: somebody may have widened it for a
 * backup.
 */
async function makePrivateFile(path: string): Promise<void> {
  if (path === ':memory:') return
  const made = await open(path, 'wx', OWNER_ALONE).catch(() => undefined)
  // Where none can be made the database says so, in words of its own.
  await made?.close()
}

const isFolder = async (path: string): Promise<boolean> =>
  stat(path).then(
    (there) => there.isDirectory(),
    () => false,
  )

/** The path of a `file:` URL; undefined for other URLs. */
export function pathOf(url: string): string | undefined {
  if (!url.startsWith('file:')) return undefined
  const path = url.replace(/^file:(\/\/(?=\/))?/, '').replace(/\?.*$/, '')
  return decodeURIComponent(path)
}
