import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { openStore, type Store } from '../../src/store/open.ts'
import { prepared } from '../prepared.ts'
import { closeWhole } from './closeWhole.ts'
import { type HranaOptions, type HranaServer, serveHrana } from './remote/hranaServer.ts'

const cleanups: (() => Promise<void>)[] = []

/** Ends what the test opened; `.config/cleanUp.ts` calls it after each. */
export async function cleanUp(): Promise<void> {
  for (const cleanup of cleanups.splice(0).reverse()) await cleanup()
}

/** A folder that goes when the test ends. */
export async function temporaryFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  cleanups.push(() => rm(folder, { recursive: true, force: true }))
  return folder
}

/** A migrated store on a real file (an in-memory one hides mistakes with transactions); goes when the test ends. */
export async function temporaryStore(): Promise<Store> {
  const file = join(await temporaryFolder(), 'shop.db')
  // Migrated once a run of the tests; tests/store/open.test.ts is about what opening makes.
  const empty = await prepared('empty', async (into) =>
    closeWhole(await openStore(`file:${join(into, 'shop.db')}`)),
  )
  await copyFile(join(empty, 'shop.db'), file)
  const store = isRemote ? await throughServer(file) : await openStore(`file:${file}`)
  cleanups.push(() => store.close())
  return store
}

/** Set by one project of `.config/vitest.config.ts`, which runs tests of stores again with a server between. */
export const isRemote = process.env.STILLFITS_TEST_STORE === 'remote'

/** A server tells the plain code, and SQLite's message names a key that is taken as it names anything unique. */
export const TAKEN_KEY = isRemote ? 'SQLITE_CONSTRAINT_UNIQUE' : 'SQLITE_CONSTRAINT_PRIMARYKEY'

async function throughServer(file: string): Promise<Store> {
  const server = await serveHrana(`file:${file}`)
  cleanups.push(() => server.close())
  return openStore(server.url, server.token)
}

/** A new database on a server, for tests that are about servers; goes when the test ends. */
export async function temporaryServer(options?: HranaOptions): Promise<HranaServer> {
  const server = await serveHrana(`file:${join(await temporaryFolder(), 'shop.db')}`, options)
  cleanups.push(() => server.close())
  return server
}

/** Every row of every table, for "nothing changed". */
export async function dump(store: Store): Promise<Record<string, unknown[]>> {
  const tables = await store.db.all<{ name: string }>(
    sql`select name from sqlite_master where type = 'table' and name not like 'sqlite_%' order by name`,
  )
  const all: Record<string, unknown[]> = {}
  for (const { name } of tables)
    all[name] = (await store.db.all(sql`select * from ${sql.identifier(name)} order by rowid`)).map((row) =>
      Object.values(row as object),
    )
  return all
}

/** The same without the log of changes, which tells of everything that was written, taken back or not. */
export async function dumpWithoutLog(store: Store): Promise<Record<string, unknown[]>> {
  const { changes: _, ...all } = await dump(store)
  return all
}
