import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { openStore, type Store } from '../../src/store/open.ts'
import { prepared } from '../prepared.ts'
import { closeWhole } from './closeWhole.ts'

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
  const store = await openStore(`file:${file}`)
  cleanups.push(() => store.close())
  return store
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
