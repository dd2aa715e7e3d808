import { and, asc, count, countDistinct, eq, isNull, max, not, or, sql } from 'drizzle-orm'
import { parts, runs } from '../../db/schema.ts'
import type { MeasuredPair } from '../core/gain/measuredMap.ts'
import type { Db } from './open.ts'
import type { Piece } from './rows.ts'
import { isOld, type OldRuns } from './runSearch.ts'

const isThere = isNull(runs.takenOutAt)
const ofTitle = (titleId: string | undefined) =>
  titleId === undefined ? undefined : eq(runs.titleId, titleId)

/** Every pair of processor and card that was run, in that title or in any. */
export async function listRunPairs(db: Db, titleId: string | undefined): Promise<MeasuredPair[]> {
  const rows = await db
    .select({
      ...{ processorId: runs.processorId, cardId: runs.cardId, runs: count() },
      ...{ titles: countDistinct(runs.titleId), lastAt: max(runs.at) },
    })
    .from(runs)
    .where(and(isThere, ofTitle(titleId)))
    .groupBy(runs.processorId, runs.cardId)
  return rows.flatMap(({ lastAt, ...pair }) => (lastAt === null ? [] : [{ ...pair, lastAt }]))
}

type Pair = Pick<MeasuredPair, 'processorId' | 'cardId'>

/** Of some hundred pairs at most: how many of their runs are not old. */
export async function currentOfPairs(
  db: Db,
  pairs: readonly Pair[],
  { titleId, old }: { readonly titleId: string | undefined; readonly old: OldRuns },
): Promise<readonly (Pair & { readonly current: number })[]> {
  if (pairs.length === 0) return []
  const current = sql<number>`sum(case when ${isOld(old)} then 0 else 1 end)`.mapWith(Number)
  return db
    .select({ ...{ processorId: runs.processorId, cardId: runs.cardId }, current })
    .from(runs)
    .where(
      and(
        isThere,
        ofTitle(titleId),
        or(
          ...pairs.map(({ processorId, cardId }) =>
            and(eq(runs.processorId, processorId), eq(runs.cardId, cardId)),
          ),
        ),
      ),
    )
    .groupBy(runs.processorId, runs.cardId)
}

export type NamedPart = { readonly id: string; readonly name: string }

/** Processors or cards that no run names, by name; at most so many. */
export async function partsNeverRun(
  db: Db,
  kind: 'processor' | 'card',
  most: number,
): Promise<Piece<NamedPart>> {
  const column = kind === 'processor' ? runs.processorId : runs.cardId
  const wasRun = sql`exists (select 1 from ${runs} where ${column} = ${parts.id} and ${isThere})`
  const where = and(eq(parts.kind, kind), not(wasRun))
  const lines = await db
    .select({ id: parts.id, name: parts.name })
    .from(parts)
    .where(where)
    .orderBy(asc(parts.name), asc(parts.id))
    .limit(most)
  return { lines, total: await db.$count(parts, where) }
}
