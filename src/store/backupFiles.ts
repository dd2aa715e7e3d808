import { link, open, rename, rm, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { CopyFailure, DatabaseContents, Looked } from './databaseCopy.ts'
import { makeFolder } from './open.ts'

export type MadeBackup =
  | { readonly ok: true; readonly path: string; readonly bytes: number; readonly contents: DatabaseContents }
  | { readonly ok: false; readonly failure: CopyFailure }

/** People's names are in it, so it is its owner's alone. */
const OWNER_ALONE = 0o600

/** The name of a copy: when it was made, so that names sort as they happened. */
export const backupName = (at: string): string =>
  `stillfits-${at.replace(/\.\d+Z$/, 'Z').replaceAll(/[-:]/g, '')}.db`

/**
 * Copies the database file to a folder, as it is at one instant, while others read and write it; opens the copy and looks
 * through all of it; only then it gets its name. Nothing is written over, and what failed leaves nothing behind.
 */
export async function makeBackup(from: string, folder: string, at: string): Promise<MadeBackup> {
  const path = resolve(folder, backupName(at))
  const part = `${path}.part`
  try {
    await makeFolder(resolve(folder))
    if (await isThere(path)) return { ok: false, failure: 'is there already' }
    const file = await open(part, 'wx', OWNER_ALONE)
    await file.close()
  } catch (error) {
    return { ok: false, failure: failureOf(codeOf(error)) }
  }
  try {
    const done = await inThread(from, part)
    if ('code' in done) return { ok: false, failure: failureOf(done.code) }
    if (!done.looked.ok) return { ok: false, failure: done.looked.failure }
    await toDisk(part)
    await giveName(part, path)
    await toDisk(dirname(path))
    return { ok: true, path, bytes: (await stat(path)).size, contents: done.looked.value }
  } catch (error) {
    return { ok: false, failure: failureOf(codeOf(error)) }
  } finally {
    for (const left of [part, `${part}-journal`, `${part}-wal`, `${part}-shm`])
      await rm(left, { force: true })
  }
}

type Done = { readonly looked: Looked } | { readonly code: string }

function inThread(from: string, to: string): Promise<Done> {
  return new Promise((done, fail) => {
    const worker = new Worker(new URL('./copyWorker.mjs', import.meta.url), { workerData: { from, to } })
    worker.once('message', (said: Done) => done(said))
    worker.once('error', fail)
    worker.once('exit', () => fail(new Error('the thread that copies ended without a word')))
  })
}

/** Gives a file its name, never over another one. Disks without hard links (FAT) have a moment between look and name. */
async function giveName(part: string, path: string): Promise<void> {
  try {
    await link(part, path)
  } catch (error) {
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(codeOf(error))) throw error
    if (await isThere(path)) throw Object.assign(new Error('is there already'), { code: 'EEXIST' })
    await rename(part, path)
  }
}

/** Waits until the disk has it. Where a folder cannot be asked so, its file system decides. */
export async function toDisk(path: string): Promise<void> {
  const handle = await open(path, 'r')
  try {
    await handle.sync().catch((error: unknown) => {
      if (!['EINVAL', 'EISDIR', 'EPERM'].includes(codeOf(error))) throw error
    })
  } finally {
    await handle.close()
  }
}

/** Takes a copy away; false where there was none. */
export async function removeBackup(path: string): Promise<boolean> {
  if (!(await isThere(path))) return false
  await rm(path)
  return true
}

export const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  )

/** Whether two paths lie on the same disk as far as the system tells; undefined where one of them is not there. */
export async function isSameDisk(one: string, other: string): Promise<boolean | undefined> {
  const nearest = async (path: string): Promise<number | undefined> => {
    for (let at = resolve(path); ; at = dirname(at)) {
      const there = await stat(at).catch(() => undefined)
      if (there !== undefined) return there.dev
      if (dirname(at) === at) return undefined
    }
  }
  const [a, b] = [await nearest(one), await nearest(other)]
  return a === undefined || b === undefined ? undefined : a === b
}

/** Where copies go when nobody says: beside the database. */
export const backupFolderBeside = (databasePath: string): string =>
  join(dirname(resolve(databasePath)), 'backups')

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'UNKNOWN'

function failureOf(code: string): CopyFailure {
  if (code === 'EEXIST') return 'is there already'
  if (['ENOSPC', 'EDQUOT', 'EFBIG'].includes(code) || code.startsWith('SQLITE_FULL')) return 'no room'
  if (['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'ENOENT', 'EISDIR'].includes(code)) return 'cannot be written'
  if (code.startsWith('SQLITE_CANTOPEN') || code.startsWith('SQLITE_READONLY')) return 'cannot be written'
  if (code.startsWith('SQLITE_NOTADB')) return 'not a database'
  return code.startsWith('SQLITE_CORRUPT') ? 'damaged' : 'failed'
}
