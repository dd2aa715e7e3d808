import { eq, inArray } from 'drizzle-orm'
import { runs } from '../../db/schema.ts'
import type { Run } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import type { Db } from './open.ts'
import { oneOf, upsertRows, withoutNulls } from './rows.ts'

/** Runs of these titles, oldest first. */
export async function runsOfTitles(db: Db, titleIds: readonly string[]): Promise<Run[]> {
  if (titleIds.length === 0) return []
  const rows = await db
    .select()
    .from(runs)
    .where(inArray(runs.titleId, [...titleIds]))
    .orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** All runs, oldest first. */
export async function listRuns(db: Db): Promise<Run[]> {
  return (await db.select().from(runs).orderBy(runs.at, runs.id)).map(runOf)
}

/** Runs made on one machine, oldest first. */
export async function runsOfMachine(db: Db, tag: string): Promise<Run[]> {
  return (await db.select().from(runs).where(eq(runs.machineTag, tag)).orderBy(runs.at, runs.id)).map(runOf)
}

/** The id after the highest `R-` number: `R-0001` where there is no run yet. */
export async function nextRunId(db: Db): Promise<string> {
  const ids = (await db.select({ id: runs.id }).from(runs)).map((row) => row.id)
  const numbers = ids.map((id) => Number(/^R-(\d{1,9})$/.exec(id)?.[1] ?? 0))
  return `R-${String(numbers.reduce((a, b) => Math.max(a, b), 0) + 1).padStart(4, '0')}`
}

export async function upsertRuns(tx: Db, list: readonly Run[]): Promise<void> {
  await upsertRows(
    tx,
    runs,
    [runs.id],
    list.map(({ fitted, machineTag = null, low1Fps = null, note = null, ...run }) => ({
      id: run.id,
      at: run.at,
      machineTag,
      processorId: fitted.processorId,
      cardId: fitted.cardId,
      memoryType: fitted.memory.memoryType,
      memoryRateMts: fitted.memory.rateMts,
      memoryChannels: fitted.memory.channels,
      memoryTotalGB: fitted.memory.totalGB,
      linkGen: fitted.link.gen,
      linkLanes: fitted.link.lanes,
      titleId: run.titleId,
      titleVersion: run.titleVersion,
      settingId: run.settingId,
      averageFps: run.averageFps,
      low1Fps,
      note,
    })),
  )
}

function runOf(row: typeof runs.$inferSelect): Run {
  const { id, at, machineTag, titleId, titleVersion, settingId, averageFps, low1Fps, note } =
    withoutNulls(row)
  return {
    id,
    at,
    ...(machineTag !== undefined && { machineTag }),
    fitted: {
      processorId: row.processorId,
      cardId: row.cardId,
      memory: {
        memoryType: oneOf(MEMORY_TYPES, row.memoryType),
        rateMts: row.memoryRateMts,
        channels: row.memoryChannels,
        totalGB: row.memoryTotalGB,
      },
      link: { gen: row.linkGen, lanes: row.linkLanes },
    },
    titleId,
    titleVersion,
    settingId,
    averageFps,
    ...(low1Fps !== undefined && { low1Fps }),
    ...(note !== undefined && { note }),
  }
}
