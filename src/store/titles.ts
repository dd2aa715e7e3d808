import { settings, titles } from '../../db/schema.ts'
import type { Setting, Title } from '../core/gain/run.ts'
import type { Db } from './open.ts'
import { upsertRows, withoutNulls } from './rows.ts'

export async function listTitles(db: Db): Promise<Title[]> {
  return db.select().from(titles).orderBy(titles.name, titles.id)
}

export async function upsertTitles(tx: Db, rows: readonly Title[]): Promise<void> {
  await upsertRows(tx, titles, [titles.id], rows)
}

export async function listSettings(db: Db): Promise<Setting[]> {
  return (await db.select().from(settings).orderBy(settings.id)).map(withoutNulls)
}

export async function upsertSettings(tx: Db, rows: readonly Setting[]): Promise<void> {
  const full = rows.map(({ upscaler = null, capFps = null, ...setting }) => ({
    ...setting,
    upscaler,
    capFps,
  }))
  await upsertRows(tx, settings, [settings.id], full)
}
