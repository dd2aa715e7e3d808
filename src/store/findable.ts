import { asc, eq, isNull } from 'drizzle-orm'
import { findableParts, findablePrices, parts } from '../../db/schema.ts'
import type { Part } from '../core/part.ts'
import { CONDITIONS, type Findable, type SeenPrice } from '../core/shop.ts'
import type { Db } from './open.ts'
import { partOf } from './parts.ts'
import { insertRows, oneOf, upsertRows, withoutNulls } from './rows.ts'

export type FindableLine = { readonly findable: Findable; readonly part: Part }

/** What the shop could buy, with its parts; what was taken off the list is not there. */
export async function listFindable(db: Db): Promise<FindableLine[]> {
  const rows = await db
    .select({ findable: findableParts, part: parts })
    .from(findableParts)
    .innerJoin(parts, eq(findableParts.partId, parts.id))
    .where(isNull(findableParts.removedAt))
    .orderBy(parts.kind, parts.name, findableParts.id)
  return rows.map(({ findable, part }) => ({ findable: findableOf(findable), part: partOf(part) }))
}

/** Everything that was ever on the list, and since when it is off it. */
export async function listAllFindable(
  db: Db,
): Promise<{ readonly findable: Findable; readonly removedAt?: string | undefined }[]> {
  const rows = await db.select().from(findableParts).orderBy(findableParts.id)
  return rows.map((row) => ({
    findable: findableOf(row),
    ...(row.removedAt && { removedAt: row.removedAt }),
  }))
}

/** Every range they were seen for, oldest first; of one alone where it is named. */
export async function listSeenPrices(db: Db, findableId?: string): Promise<SeenPrice[]> {
  const rows = await db
    .select()
    .from(findablePrices)
    .where(findableId === undefined ? undefined : eq(findablePrices.findableId, findableId))
    .orderBy(asc(findablePrices.findableId), asc(findablePrices.seenAt), asc(findablePrices.id))
  return rows.map(({ id: _, seenAt, ...seen }) => ({ ...seen, at: seenAt }))
}

/** Adds or replaces; what was off the list is on it again. A range or date that differs is added to the history. */
export async function upsertFindable(tx: Db, rows: readonly Findable[]): Promise<void> {
  const before = new Map((await listAllFindable(tx)).map(({ findable }) => [findable.id, findable]))
  await upsertRows(
    tx,
    findableParts,
    [findableParts.id],
    rows.map(({ at, warrantyMonths = null, place = null, note = null, ...row }) => ({
      ...{ id: row.id, partId: row.partId, condition: row.condition },
      ...{ lowMinor: row.lowMinor, highMinor: row.highMinor, seenAt: at },
      ...{ warrantyMonths, place, note, removedAt: null },
    })),
  )
  const seen = rows.filter(({ id, at, lowMinor, highMinor }) => {
    const old = before.get(id)
    return old?.at !== at || old.lowMinor !== lowMinor || old.highMinor !== highMinor
  })
  await insertSeenPrices(
    tx,
    seen.map(({ id, at, lowMinor, highMinor }) => ({ findableId: id, at, lowMinor, highMinor })),
  )
}

export async function insertSeenPrices(tx: Db, rows: readonly SeenPrice[]): Promise<void> {
  await insertRows(
    tx,
    findablePrices,
    rows.map(({ at, findableId, lowMinor, highMinor }) => ({ findableId, seenAt: at, lowMinor, highMinor })),
  )
}

/** Takes one off the list, or (without an instant) brings it back. */
export async function setRemoved(tx: Db, id: string, removedAt: string | undefined): Promise<void> {
  await tx
    .update(findableParts)
    .set({ removedAt: removedAt ?? null })
    .where(eq(findableParts.id, id))
}

function findableOf(row: typeof findableParts.$inferSelect): Findable {
  const { seenAt, condition, removedAt: _, ...findable } = withoutNulls(row)
  return { ...findable, condition: oneOf(CONDITIONS, condition), at: seenAt }
}
