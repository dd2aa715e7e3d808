import { and, count, eq, isNull, sql } from 'drizzle-orm'
import { runs } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { isOld, type OldRuns } from './runSearch.ts'

const isThere = isNull(runs.takenOutAt)

/** How many runs each title has, and how many of them are old. */
export async function countByTitle(
  db: Db,
  old: OldRuns,
): Promise<ReadonlyMap<string, { readonly runs: number; readonly old: number }>> {
  const rows = await db
    .select({
      ...{ titleId: runs.titleId, runs: count() },
      old: sql<number>`sum(case when ${isOld(old)} then 1 else 0 end)`.mapWith(Number),
    })
    .from(runs)
    .where(isThere)
    .groupBy(runs.titleId)
  return new Map(rows.map(({ titleId, ...counts }) => [titleId, counts]))
}

/** How many runs were made at each setting. */
export async function countBySetting(db: Db): Promise<ReadonlyMap<string, number>> {
  const rows = await db
    .select({ settingId: runs.settingId, n: count() })
    .from(runs)
    .where(isThere)
    .groupBy(runs.settingId)
  return new Map(rows.map(({ settingId, n }) => [settingId, n]))
}

/** How many runs of a title were made in each of its versions. */
export async function countByVersion(db: Db, titleId: string): Promise<ReadonlyMap<string, number>> {
  const rows = await db
    .select({ version: runs.titleVersion, n: count() })
    .from(runs)
    .where(and(isThere, eq(runs.titleId, titleId)))
    .groupBy(runs.titleVersion)
  return new Map(rows.map(({ version, n }) => [version, n]))
}
