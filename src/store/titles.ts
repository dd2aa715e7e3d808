import { count, desc, inArray } from 'drizzle-orm'
import { runs, settings, titles, titleVersions, wantedTitles } from '../../db/schema.ts'
import { inOrder, type Setting, type Title } from '../core/gain/run.ts'
import type { Db } from './open.ts'
import { groupBy, insertRows, upsertRows, withoutNulls } from './rows.ts'

/** All titles by name, with their versions, the oldest first. */
export async function listTitles(db: Db): Promise<Title[]> {
  const versions = groupBy(await db.select().from(titleVersions), ({ titleId }) => titleId)
  const rows = await db.select().from(titles).orderBy(titles.name, titles.id)
  return rows.map((row) => {
    const own = versions.get(row.id)?.map(({ version, at }) => ({ version, at }))
    return { ...withoutNulls(row), ...(own && { versions: inOrder(own) }) }
  })
}

/** Adds titles or replaces them, their versions with them. */
export async function upsertTitles(tx: Db, rows: readonly Title[]): Promise<void> {
  if (rows.length === 0) return
  const full = rows.map(({ id, name, memoryGB = null, graphicsMemoryGB = null, capFps = null }) => ({
    ...{ id, name, memoryGB, graphicsMemoryGB, capFps },
  }))
  await upsertRows(tx, titles, [titles.id], full)
  const ids = rows.map(({ id }) => id)
  await tx.delete(titleVersions).where(inArray(titleVersions.titleId, ids))
  const versions = rows.flatMap(({ id, versions = [] }) =>
    versions.map(({ version, at }) => ({ titleId: id, version, at })),
  )
  await insertRows(tx, titleVersions, versions)
}

export async function listSettings(db: Db): Promise<Setting[]> {
  const rows = await db.select().from(settings).orderBy(settings.id)
  return rows.map((row) => {
    const { loweredFromId: fromSettingId, loweredWhat: what, ...setting } = withoutNulls(row)
    return {
      ...setting,
      ...(fromSettingId !== undefined && what !== undefined && { lowered: { fromSettingId, what } }),
    }
  })
}

/** A setting that another is lowered from is written before it, because the database holds them together. */
export async function upsertSettings(tx: Db, rows: readonly Setting[]): Promise<void> {
  const left = new Map(rows.map((row) => [row.id, row]))
  const sorted: Setting[] = []
  const take = (row: Setting | undefined): void => {
    if (row === undefined || !left.delete(row.id)) return
    take(row.lowered && left.get(row.lowered.fromSettingId))
    sorted.push(row)
  }
  for (const row of rows) take(row)
  const full = sorted.map(({ upscaler = null, capFps = null, lowered, ...setting }) => ({
    ...setting,
    ...{ upscaler, capFps },
    loweredFromId: lowered?.fromSettingId ?? null,
    loweredWhat: lowered?.what ?? null,
  }))
  await upsertRows(tx, settings, [settings.id], full)
}

/** The titles and settings that questions name, a row for each. */
export const listWanted = (db: Db): Promise<{ titleId: string; settingId: string }[]> =>
  db.select({ titleId: wantedTitles.titleId, settingId: wantedTitles.settingId }).from(wantedTitles)

/** How often a title was run at a setting. */
export type RunCount = { readonly titleId: string; readonly settingId: string; readonly runs: number }

/** How often each title was run at each setting, the most often first. */
export const countRunsBySetting = (db: Db): Promise<RunCount[]> =>
  db
    .select({ titleId: runs.titleId, settingId: runs.settingId, runs: count() })
    .from(runs)
    .groupBy(runs.titleId, runs.settingId)
    .orderBy(desc(count()), runs.titleId, runs.settingId)
