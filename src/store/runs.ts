import { and, eq, inArray, isNull } from 'drizzle-orm'
import { runs } from '../../db/schema.ts'
import type { Run } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import type { Db } from './open.ts'
import { inBatches, oneOf, upsertRows, withoutNulls } from './rows.ts'

/** Runs of these titles, oldest first. */
export async function runsOfTitles(db: Db, titleIds: readonly string[]): Promise<Run[]> {
  if (titleIds.length === 0) return []
  const rows = await db
    .select()
    .from(runs)
    .where(and(inArray(runs.titleId, [...titleIds]), isNull(runs.takenOutAt)))
    .orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** All runs, oldest first. */
export async function listRuns(db: Db): Promise<Run[]> {
  const rows = await db.select().from(runs).where(isNull(runs.takenOutAt)).orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** Runs with these ids, oldest first; those taken out are left out. */
export async function runsByIds(db: Db, ids: readonly string[]): Promise<Run[]> {
  if (ids.length === 0) return []
  const rows = await db
    .select()
    .from(runs)
    .where(and(inArray(runs.id, [...ids]), isNull(runs.takenOutAt)))
    .orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** Runs of the same processor, card, title and setting, oldest first; memory and link may differ. */
export async function runsLike(
  db: Db,
  { fitted, titleId, settingId }: Pick<Run, 'fitted' | 'titleId' | 'settingId'>,
): Promise<Run[]> {
  const rows = await db
    .select()
    .from(runs)
    .where(
      and(
        ...[eq(runs.processorId, fitted.processorId), eq(runs.cardId, fitted.cardId)],
        ...[eq(runs.titleId, titleId), eq(runs.settingId, settingId), isNull(runs.takenOutAt)],
      ),
    )
    .orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** Undefined for an unknown id, and for one that was taken out. */
export async function loadRun(db: Db, id: string): Promise<Run | undefined> {
  const [row] = await db
    .select()
    .from(runs)
    .where(and(eq(runs.id, id), isNull(runs.takenOutAt)))
  return row && runOf(row)
}

/** Runs made on one machine, oldest first. */
export async function runsOfMachine(db: Db, tag: string): Promise<Run[]> {
  const rows = await db
    .select()
    .from(runs)
    .where(and(eq(runs.machineTag, tag), isNull(runs.takenOutAt)))
    .orderBy(runs.at, runs.id)
  return rows.map(runOf)
}

/** Runs made on any of these machines, by machine, oldest first. */
export async function runsOfMachines(db: Db, tags: readonly string[]): Promise<Map<string, Run[]>> {
  const of = new Map<string, Run[]>()
  for (const some of inBatches(tags)) {
    const rows = await db
      .select()
      .from(runs)
      .where(and(inArray(runs.machineTag, some), isNull(runs.takenOutAt)))
      .orderBy(runs.at, runs.id)
    for (const run of rows.map(runOf)) {
      const tag = run.machineTag ?? ''
      of.set(tag, [...(of.get(tag) ?? []), run])
    }
  }
  return of
}

/** The id after the highest `R-` number, those taken out included: `R-0001` where there is no run yet. */
export async function nextRunId(db: Db): Promise<string> {
  const ids = (await db.select({ id: runs.id }).from(runs)).map((row) => row.id)
  const numbers = ids.map((id) => Number(/^R-(\d{1,9})$/.exec(id)?.[1] ?? 0))
  return `R-${String(numbers.reduce((a, b) => Math.max(a, b), 0) + 1).padStart(4, '0')}`
}

/** Adds runs or replaces them; one that was taken out is back. */
export async function upsertRuns(tx: Db, list: readonly Run[]): Promise<void> {
  await upsertRows(tx, runs, [runs.id], list.map(rowOf))
}

/** A run that was taken out, with when; undefined where there is none. */
export async function loadTakenOut(db: Db, id: string): Promise<(Run & { takenOutAt: string }) | undefined> {
  const [row] = await db.select().from(runs).where(eq(runs.id, id))
  return row?.takenOutAt == null ? undefined : { ...runOf(row), takenOutAt: row.takenOutAt }
}

/** Takes a run out, or with `undefined` brings it back. */
export async function takeRunOut(tx: Db, id: string, at: string | undefined): Promise<void> {
  await tx
    .update(runs)
    .set({ takenOutAt: at ?? null })
    .where(eq(runs.id, id))
}

const rowOf = ({ fitted, ...run }: Run): Required<typeof runs.$inferInsert> => ({
  id: run.id,
  at: run.at,
  machineTag: run.machineTag ?? null,
  processorId: fitted.processorId,
  cardId: fitted.cardId,
  memoryType: fitted.memory.memoryType,
  memoryRateMts: fitted.memory.rateMts,
  memoryChannels: fitted.memory.channels,
  memoryTotalGB: fitted.memory.totalGB,
  linkGen: fitted.link.gen,
  linkLanes: fitted.link.lanes,
  largeBar: fitted.largeBar ?? null,
  processorLimitW: fitted.processorLimitW ?? null,
  cardLimitW: fitted.cardLimitW ?? null,
  titleId: run.titleId,
  titleVersion: run.titleVersion,
  settingId: run.settingId,
  averageFps: run.averageFps,
  low1Fps: run.low1Fps ?? null,
  low1MeanFps: run.low1MeanFps ?? null,
  low01Fps: run.low01Fps ?? null,
  low01MeanFps: run.low01MeanFps ?? null,
  driverVersion: run.driverVersion ?? null,
  scene: run.scene ?? null,
  roomC: run.roomC ?? null,
  processorLoadC: run.processorLoadC ?? null,
  cardLoadC: run.cardLoadC ?? null,
  noiseDba: run.noiseDba ?? null,
  logId: run.logId ?? null,
  note: run.note ?? null,
  takenOutAt: null,
})

/** A row as a run. */
export function runOf(full: typeof runs.$inferSelect): Run {
  const { processorId, cardId, memoryType, memoryRateMts, memoryChannels, memoryTotalGB, ...rest } =
    withoutNulls(full)
  const { linkGen, linkLanes, largeBar, processorLimitW, cardLimitW, takenOutAt: _, ...run } = rest
  return {
    ...run,
    fitted: {
      ...{ processorId, cardId },
      memory: {
        memoryType: oneOf(MEMORY_TYPES, memoryType),
        rateMts: memoryRateMts,
        channels: memoryChannels,
        totalGB: memoryTotalGB,
      },
      link: { gen: linkGen, lanes: linkLanes },
      ...(largeBar !== undefined && { largeBar }),
      ...(processorLimitW !== undefined && { processorLimitW }),
      ...(cardLimitW !== undefined && { cardLimitW }),
    },
  }
}
