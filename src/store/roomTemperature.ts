import { eq, sql } from 'drizzle-orm'
import { limits } from '../../db/schema.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { Db } from './open.ts'

const LOAD_POINT: LimitKey = 'coolingLoad'

/** The hottest room in °C in which a machine of the shop was measured under load; undefined before the first one. */
export async function hottestRoomC(db: Db): Promise<number | undefined> {
  const [row] = await db
    .select({ roomC: sql<number | null>`max(json_extract(${limits.value}, '$.roomC'))` })
    .from(limits)
    .where(eq(limits.key, LOAD_POINT))
  return row?.roomC ?? undefined
}
