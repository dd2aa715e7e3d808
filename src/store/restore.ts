import { copyFile, open, rename, rm, stat } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import { createClient } from '@libsql/client'
import { eq, inArray } from 'drizzle-orm'
import { mails, rounds, sessions } from '../../db/schema.ts'
import { isThere, toDisk } from './backupFiles.ts'
import {
  type CopyFailure,
  type DatabaseContents,
  lookThrough,
  schemaVersionHere,
  urlOf,
} from './databaseCopy.ts'
import { makeFolder, openStore, type Store } from './open.ts'
import { addMailEvent } from './outbox.ts'

export type RestoreFailure = CopyFailure | 'no such file' | 'in use' | 'the same file'

export type Restored =
  | {
      readonly ok: true
      readonly contents: DatabaseContents
      /** The version that it was brought to. */
      readonly schemaVersion: number
      /** Where the database that was there is now; absent: none was there. */
      readonly keptAt?: string | undefined
    }
  | { readonly ok: false; readonly failure: RestoreFailure }

const OWNER_ALONE = 0o600
const BESIDE = ['-wal', '-shm', '-journal'] as const

/**
 * A copy of a backup beside the database, looked through; the backup itself is only read. A log that lies beside it (where
 * files were copied under a running program) is taken in.
 */
async function copyOf(file: string, to: string): Promise<Awaited<ReturnType<typeof lookThrough>>> {
  const made = await open(to, 'wx', OWNER_ALONE)
  await made.close()
  await copyFile(file, to)
  if (await isThere(`${file}-wal`)) await copyFile(`${file}-wal`, `${to}-wal`)
  return lookThrough(to)
}

const removeWith = async (path: string): Promise<void> => {
  for (const end of ['', ...BESIDE]) await rm(`${path}${end}`, { force: true })
}

/** What is in a backup; nothing is changed. */
export async function lookAtBackup(
  file: string,
  databasePath: string,
  at: string,
): Promise<
  Awaited<ReturnType<typeof lookThrough>> | { readonly ok: false; readonly failure: 'no such file' }
> {
  if (!(await isFile(file))) return { ok: false, failure: 'no such file' }
  await makeFolder(dirname(resolve(databasePath)))
  const copy = besideWith(databasePath, 'look', at)
  try {
    return await copyOf(file, copy)
  } finally {
    await removeWith(copy)
  }
}

/**
 * Puts a backup in the place of the database. First everything is made ready beside it: copied, looked through, brought to
 * the version of this program, written to the disk. The database that was there is renamed and never deleted. While that is
 * done nobody else can open it; a program that has it open makes this fail before anything changed.
 */
export async function restore(file: string, databasePath: string, at: string): Promise<Restored> {
  if (!(await isFile(file))) return { ok: false, failure: 'no such file' }
  const path = resolve(databasePath)
  if ((await isThere(path)) && (await isSameFile(file, path))) return { ok: false, failure: 'the same file' }
  await makeFolder(dirname(path))
  const ready = besideWith(path, 'restoring', at)
  try {
    const looked = await copyOf(file, ready)
    if (!looked.ok) return looked
    const { schemaVersion } = looked.value
    const store = await openStore(urlOf(ready))
    await holdBack(store, at).finally(store.close)
    await foldLog(ready)
    const now = await lookThrough(ready)
    if (!now.ok) return now
    await toDisk(ready)
    const swapped = await swap(path, ready, at)
    if (!swapped.ok) return swapped
    return {
      ...{ ok: true, contents: { ...looked.value, schemaVersion }, schemaVersion: schemaVersionHere() },
      keptAt: swapped.keptAt,
    }
  } finally {
    await removeWith(ready)
  }
}

/**
 * What must not go on by itself from an old state: mails that were on their way may have gone out since, so they are held
 * for a person; rounds that would write more are paused; browsers that were signed in then may have been signed out since.
 */
const holdBack = (store: Store, at: string): Promise<void> =>
  store.write(async (tx) => {
    const held = await tx
      .update(mails)
      .set({ state: 'held', leaseId: null, leaseUntil: null, handedAt: at, updatedAt: at })
      .where(inArray(mails.state, ['approved', 'sending']))
      .returning({ id: mails.id })
    for (const { id } of held) await addMailEvent(tx, String(id), { event: 'no reply', at })
    await tx.update(rounds).set({ state: 'paused' }).where(eq(rounds.state, 'going out'))
    await tx.delete(sessions)
  })

type Swapped =
  | { readonly ok: true; readonly keptAt?: string | undefined }
  | { readonly ok: false; readonly failure: 'in use' }

async function swap(path: string, ready: string, at: string): Promise<Swapped> {
  if (!(await isThere(path))) {
    await rename(ready, path)
    await toDisk(dirname(path))
    return { ok: true }
  }
  const keptAt = besideWith(path, 'before-restore', at)
  const held = await holdAlone(path)
  if (held === 'in use') return { ok: false, failure: 'in use' }
  try {
    await rename(path, keptAt)
    // A damaged database keeps its log, which may hold what its pages do not.
    for (const end of BESIDE)
      if (await isThere(`${path}${end}`)) await rename(`${path}${end}`, `${keptAt}${end}`)
    await rename(ready, path)
    await toDisk(dirname(path))
  } finally {
    held.letGo()
  }
  return { ok: true, keptAt }
}

/**
 * Holds a database so that nobody else can open it. Leaving the log mode asks for the file alone, and fails while any other
 * connection is open (SQLite's documentation, "Write-Ahead Logging", section 6), a killed one not counting.
 */
async function holdAlone(path: string): Promise<'in use' | { readonly letGo: () => void }> {
  let client: ReturnType<typeof createClient> | undefined
  try {
    client = createClient({ url: urlOf(path), concurrency: 1 })
    await client.execute('pragma journal_mode = delete')
    await client.execute('pragma locking_mode = exclusive')
    await client.execute('begin exclusive')
    const held = client
    return { letGo: () => held.close() }
  } catch (error) {
    client?.close()
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) return 'in use'
    // What is no database, or damaged, nobody can serve: it is put aside as it is.
    return { letGo: () => {} }
  }
}

/** Everything in the one file, and nothing in the log beside it. */
async function foldLog(path: string): Promise<void> {
  const client = createClient({ url: urlOf(path), concurrency: 1 })
  try {
    const { rows } = await client.execute('pragma wal_checkpoint(truncate)')
    if (Number(rows[0]?.[0]) !== 0) throw new Error('the log of the copy is held')
  } finally {
    client.close()
  }
}

const besideWith = (path: string, what: string, at: string): string =>
  `${resolve(path)}.${what}-${at.replaceAll(/[-:]/g, '').replace('.', '')}`

const isFile = (path: string): Promise<boolean> =>
  stat(path).then(
    (there) => there.isFile(),
    () => false,
  )

async function isSameFile(one: string, other: string): Promise<boolean> {
  const [a, b] = [await stat(one), await stat(other)]
  return a.ino === b.ino && a.dev === b.dev
}
