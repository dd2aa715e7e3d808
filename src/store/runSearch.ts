import { and, desc, eq, inArray, isNull, max, min, notInArray, or, type SQL, sql } from 'drizzle-orm'
import { parts, runs } from '../../db/schema.ts'
import type { Run, TitleVersion } from '../core/gain/run.ts'
import type { Db } from './open.ts'
import type { Piece } from './rows.ts'
import { runOf } from './runs.ts'

/** What makes a run old, as core/gain/age has it: made before an instant, or in a version that its title has left. */
export type OldRuns = {
  readonly before: string
  /** Titles with versions: the newest, and all that are listed. */
  readonly titles: readonly {
    readonly titleId: string
    readonly newest: TitleVersion
    readonly listed: readonly string[]
  }[]
}

export type RunSearch = {
  readonly ids?: readonly string[] | undefined
  readonly titleId?: string | undefined
  readonly settingId?: string | undefined
  /** Null: on a test bench. */
  readonly machineTag?: string | null | undefined
  /** A processor or a card. */
  readonly partId?: string | undefined
  readonly processorId?: string | undefined
  readonly cardId?: string | undefined
  readonly age?: { readonly is: 'old' | 'current'; readonly old: OldRuns } | undefined
  readonly offset?: number | undefined
  readonly most: number
}

const isThere = isNull(runs.takenOutAt)

/** One piece of the runs that are like that, the newest first. */
export async function searchRuns(db: Db, search: RunSearch): Promise<Piece<Run>> {
  const where = and(isThere, ...conditions(search))
  const found = await db
    .select()
    .from(runs)
    .where(where)
    .orderBy(desc(runs.at), desc(runs.id))
    .limit(search.most)
    .offset(search.offset ?? 0)
  return { lines: found.map(runOf), total: await db.$count(runs, where) }
}

export const countRuns = (db: Db): Promise<number> => db.$count(runs, isThere)

function conditions(search: RunSearch): (SQL | undefined)[] {
  const { ids, titleId, settingId, machineTag, partId, processorId, cardId, age } = search
  return [
    ids && inArray(runs.id, [...ids]),
    titleId === undefined ? undefined : eq(runs.titleId, titleId),
    settingId === undefined ? undefined : eq(runs.settingId, settingId),
    machineTag === null
      ? isNull(runs.machineTag)
      : machineTag === undefined
        ? undefined
        : eq(runs.machineTag, machineTag),
    processorId === undefined ? undefined : eq(runs.processorId, processorId),
    cardId === undefined ? undefined : eq(runs.cardId, cardId),
    partId === undefined ? undefined : or(eq(runs.processorId, partId), eq(runs.cardId, partId)),
    age && (age.is === 'old' ? isOld(age.old) : sql`not (${isOld(age.old)})`),
  ]
}

/** Whether a run is old. */
export const isOld = ({ before, titles }: OldRuns): SQL | undefined =>
  or(
    sql`${runs.at} < ${before}`,
    ...titles.map(({ titleId, newest, listed }) =>
      and(
        eq(runs.titleId, titleId),
        notInArray(runs.titleVersion, [newest.version]),
        or(inArray(runs.titleVersion, [...listed]), sql`${newest.at} > ${runs.at}`),
      ),
    ),
  )

/** When each version of each title was run first and last. */
export async function listRunVersions(
  db: Db,
): Promise<readonly { titleId: string; titleVersion: string; first: string; last: string }[]> {
  const rows = await db
    .select({
      ...{ titleId: runs.titleId, titleVersion: runs.titleVersion, first: min(runs.at), last: max(runs.at) },
    })
    .from(runs)
    .where(isThere)
    .groupBy(runs.titleId, runs.titleVersion)
  return rows.flatMap(({ first, last, ...row }) =>
    first === null || last === null ? [] : [{ ...row, first, last }],
  )
}

/** Machines that runs were made on, by tag, at most so many; a test bench is null. */
export async function machinesOfRuns(db: Db, most: number): Promise<(string | null)[]> {
  const rows = await db
    .selectDistinct({ tag: runs.machineTag })
    .from(runs)
    .where(isThere)
    .orderBy(runs.machineTag)
    .limit(most)
  return rows.map(({ tag }) => tag)
}

/** Processors and cards that were run. */
export async function partsOfRuns(db: Db): Promise<string[]> {
  const wasRun = or(
    sql`exists (select 1 from ${runs} where ${runs.processorId} = ${parts.id} and ${isThere})`,
    sql`exists (select 1 from ${runs} where ${runs.cardId} = ${parts.id} and ${isThere})`,
  )
  const rows = await db
    .select({ id: parts.id })
    .from(parts)
    .where(and(inArray(parts.kind, ['processor', 'card']), wasRun))
  return rows.map(({ id }) => id)
}
