import { stat, statfs } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import type { Settings } from '../settings.ts'
import { isSameDisk } from '../store/backupFiles.ts'
import { scheduledFolder } from '../uses/backups.ts'
import { DOCTOR_EN as W } from '../words/en/doctor.ts'
import { figuresFor } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { backupSettingsOf } from './commands.ts'
import type { Check } from './doctor.ts'

const { bytes } = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })

/** Below it the next photos, logs and copies find no place. */
const LOW_BYTES = 500e6
const FULL_BYTES = 50e6

/** What the disk tells of the files of a database on this computer. */
export async function fileChecks(settings: Settings): Promise<Check[]> {
  const backup = backupSettingsOf(settings)
  const path = backup.databasePath
  if (path === undefined) return []
  return [
    ...(await disk(path)),
    ...(await readers([path, `${path}-wal`], 0o600)),
    ...(await backupDisk(path, scheduledFolder(backup))),
  ]
}

async function disk(path: string): Promise<Check[]> {
  const at = await statfs(dirname(resolve(path))).catch(() => undefined)
  if (at === undefined) return []
  const free = at.bavail * at.bsize
  const size = (await stat(path).catch(() => undefined))?.size ?? 0
  const values = { free: bytes(free), size: bytes(size) }
  if (free < FULL_BYTES) return [{ name: 'disk', standing: 'wrong', says: fill(W.disk.full, values) }]
  const isLow = free < Math.max(LOW_BYTES, 2 * size)
  return [
    { name: 'disk', standing: isLow ? 'look' : 'ok', says: fill(isLow ? W.disk.low : W.disk.ok, values) },
  ]
}

/** Everybody but the owner of the file. */
const OTHERS = 0o077

async function readers(paths: readonly string[], mode: number): Promise<Check[]> {
  if (process.platform === 'win32') return []
  const open: Check[] = []
  let isAnyThere = false
  for (const path of paths) {
    const there = await stat(path).catch(() => undefined)
    if (there === undefined) continue
    isAnyThere = true
    if ((there.mode & OTHERS) !== 0)
      open.push({
        name: 'files',
        standing: 'look',
        says: fill(W.files.open, { path, mode: mode.toString(8) }),
      })
  }
  if (open.length > 0 || !isAnyThere) return open
  return [{ name: 'files', standing: 'ok', says: W.files.ok }]
}

async function backupDisk(path: string, folder: string | undefined): Promise<Check[]> {
  if (folder === undefined) return []
  const isSame = await isSameDisk(path, folder)
  if (isSame === undefined) return []
  const says = isSame ? fill(W.backupDisk.same, { folder }) : W.backupDisk.ok
  return [{ name: 'backupDisk', standing: isSame ? 'look' : 'ok', says }]
}
