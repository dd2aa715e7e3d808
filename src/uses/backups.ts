import { type BackupPlan, isBackupDue, isBackupOld, lastDue, lastGood, toRemove } from '../core/backup.ts'
import { failed, ok, type Result } from '../problem.ts'
import { backupFolderBeside, isSameDisk, isThere, makeBackup, removeBackup } from '../store/backupFiles.ts'
import {
  endLease,
  type KeptBackup,
  listBackups,
  markRemoved,
  noteBackup,
  standingBackups,
  takeLease,
} from '../store/backups.ts'
import { problemOf } from '../store/errors.ts'
import type { Store } from '../store/open.ts'
import { sayCopyFailure } from '../words/backups.ts'
import { shopOrNeutral } from './shop.ts'

/** Where copies go and when, as the environment says. */
export type BackupSettings = BackupPlan & {
  /** Path of the database; undefined: it is on a server, whose own copies count. */
  readonly databasePath?: string | undefined
  /** Undefined: beside the database; `off`: none are made by themselves. */
  readonly folder?: string | undefined
}

export const OFF = 'off'

/** Where copies are put by themselves; undefined where none are made so. */
export const scheduledFolder = ({ databasePath, folder }: BackupSettings): string | undefined =>
  databasePath === undefined || folder === OFF ? undefined : (folder ?? backupFolderBeside(databasePath))

export type BackupLine = KeptBackup & {
  /** Whether the file is where it was put. */
  readonly isThere: boolean
}

export type BackupsView = {
  readonly lines: readonly BackupLine[]
  readonly plan: BackupPlan
  readonly folder?: string | undefined
  readonly isOnServer: boolean
  /** As far as the system tells; undefined: it does not. */
  readonly sameDisk?: boolean | undefined
  readonly lastGoodAt?: string | undefined
  readonly isOld: boolean
  readonly timeZone: string
  /** When the next one is made by itself, while the program runs; undefined: none is, or it is due now. */
  readonly nextAt?: string | undefined
}

const LINES = 60
const DAY_MS = 86_400_000

/** Copies that were made or tried, and whether the shop is warned. */
export async function viewBackups(store: Store, settings: BackupSettings, at: string): Promise<BackupsView> {
  const { hour, keep, warnDays, databasePath } = settings
  const folder = scheduledFolder(settings)
  const [kept, shop] = [await listBackups(store.db, LINES), await shopOrNeutral(store.db)]
  const lines = await Promise.all(
    kept.map(async (b) => ({ ...b, isThere: b.path !== undefined && (await isThere(b.path)) })),
  )
  // A file that is gone helps nobody.
  const standing = lines.filter((b) => b.failure !== undefined || b.isThere)
  const good = lastGood(standing, at)
  const due = isBackupDue(standing, at, settings, shop.timeZone)
  const next = lastDue(new Date(Date.parse(at) + DAY_MS).toISOString(), hour, shop.timeZone)
  return {
    ...{ lines, plan: { hour, keep, warnDays }, timeZone: shop.timeZone, folder },
    isOnServer: databasePath === undefined,
    sameDisk:
      databasePath === undefined || folder === undefined ? undefined : await isSameDisk(databasePath, folder),
    lastGoodAt: good,
    isOld: databasePath !== undefined && isBackupOld(standing, at, warnDays),
    ...(folder !== undefined && !due && { nextAt: next }),
  }
}

/** Makes one copy in a folder and writes down what came of it. Fields of its problems: `backup`. */
export async function backUp(
  store: Store,
  { databasePath }: Pick<BackupSettings, 'databasePath'>,
  folder: string,
  at: string,
): Promise<
  Result<KeptBackup & { readonly path: string; readonly rowsOf: Readonly<Record<string, number>> }>
> {
  const made =
    databasePath === undefined
      ? ({ ok: false, failure: 'on a server' } as const)
      : await makeBackup(databasePath, folder, at)
  if (!made.ok) {
    await note(store, { at, failure: made.failure })
    return failed({ code: 'conflict', field: 'backup', next: sayCopyFailure(made.failure) })
  }
  const { path, bytes, contents } = made
  const { rows, schemaVersion, rowsOf } = contents
  await note(store, { at, path, bytes, rows, schemaVersion, checkedAt: at })
  return ok({ id: 0, at, path, bytes, rows, schemaVersion, checkedAt: at, rowsOf })
}

/** On a disk that is full or read-only nothing can be written down, and a copy to another one counts all the same. */
async function note(store: Store, tried: Parameters<typeof noteBackup>[1]): Promise<void> {
  try {
    await store.write((tx) => noteBackup(tx, tried))
  } catch (error) {
    if (problemOf(error) === undefined) throw error
  }
}

/** Takes away copies of that folder beyond the newest; others, and files that this shop did not write down, stay. */
export async function rotate(store: Store, folder: string, keep: number, at: string): Promise<number> {
  const standing = await standingBackups(store.db)
  const there = []
  for (const one of standing) if (folderOf(one.path) === folder && (await isThere(one.path))) there.push(one)
  const gone = toRemove(there, keep)
  for (const { id, path } of gone) {
    await removeBackup(path)
    await store.write((tx) => markRemoved(tx, id, at))
  }
  return gone.length
}

const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/'))

const LEASE = 'backup'
const LEASE_MS = 30 * 60_000

/** Makes one in the folder of the settings and rotates; of several processes one does, the others are told busy. */
export async function backUpAsPlanned(
  store: Store,
  settings: BackupSettings,
  holder: string,
  at: string,
): Promise<Result<KeptBackup & { readonly removed: number }>> {
  const folder = scheduledFolder(settings)
  if (folder === undefined) {
    const failure = settings.databasePath === undefined ? 'on a server' : 'switched off'
    return failed({ code: 'conflict', field: 'backup', next: sayCopyFailure(failure) })
  }
  const until = new Date(Date.parse(at) + LEASE_MS).toISOString()
  if (!(await store.write((tx) => takeLease(tx, LEASE, { id: holder, until }, at))))
    return failed({ code: 'busy', field: 'backup', next: sayCopyFailure('under way') })
  try {
    const made = await backUp(store, settings, folder, at)
    if (!made.ok) return made
    const removed = await rotate(store, folderOf(made.value.path), settings.keep, at)
    return ok({ ...made.value, removed })
  } finally {
    await store.write((tx) => endLease(tx, LEASE, holder))
  }
}

/** Makes one where it is due; undefined where it is not. */
export async function backUpWhenDue(
  store: Store,
  settings: BackupSettings,
  holder: string,
  at: string,
): Promise<Result<KeptBackup> | undefined> {
  const view = scheduledFolder(settings) === undefined ? undefined : await viewBackups(store, settings, at)
  if (view === undefined) return undefined
  const tried = view.lines.filter((b) => b.failure !== undefined || b.isThere)
  if (!isBackupDue(tried, at, settings, view.timeZone)) return undefined
  return backUpAsPlanned(store, settings, holder, at)
}

/** What the page of copies asks for. */
export type BackupUses = {
  backups(): Promise<BackupsView>
  /** Field of its problems: `backup`. */
  backUpNow(): Promise<Result<KeptBackup>>
}

export const backupUsesOf = (
  store: Store,
  settings: BackupSettings,
  holder: string,
  now: () => string,
): BackupUses => ({
  backups: () => viewBackups(store, settings, now()),
  backUpNow: () => backUpAsPlanned(store, settings, holder, now()),
})
