import { and, asc, eq, inArray, isNull } from 'drizzle-orm'
import { fittedParts } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { inBatches, insertRows, upsertRows, withoutNulls } from './rows.ts'

/** One stay of one part in one machine. No `fittedAt`: since before anybody wrote it down; no `removedAt`: still in. */
export type FittedPart = {
  readonly machineTag: string
  readonly partId: string
  readonly fittedAt?: string | undefined
  readonly removedAt?: string | undefined
}

/** A stored stay. `copy` counts equal ones (same machine, part and fitting date) from 0; `id` gives the order. */
export type FittedRow = FittedPart & { readonly id: number; readonly copy: number }

/** All stays of all machines, oldest first. */
export async function listFitted(db: Db): Promise<FittedRow[]> {
  const rows = await db.select().from(fittedParts).orderBy(asc(fittedParts.fittedAt), asc(fittedParts.id))
  return rows.map(withoutNulls)
}

/** When parts of these machines came or went, by machine, in no order. */
export async function partChangesOf(db: Db, tags: readonly string[]): Promise<Map<string, string[]>> {
  const of = new Map<string, string[]>()
  for (const some of inBatches(tags)) {
    const rows = await db
      .select({
        machineTag: fittedParts.machineTag,
        fittedAt: fittedParts.fittedAt,
        removedAt: fittedParts.removedAt,
      })
      .from(fittedParts)
      .where(inArray(fittedParts.machineTag, some))
    for (const { machineTag, fittedAt, removedAt } of rows) {
      const list = of.get(machineTag) ?? []
      list.push(...[fittedAt, removedAt].filter((at) => at !== null))
      of.set(machineTag, list)
    }
  }
  return of
}

/** Tags of machines that have the part now, in no order. */
export async function machinesWithPart(db: Db, partId: string): Promise<string[]> {
  const rows = await db
    .selectDistinct({ tag: fittedParts.machineTag })
    .from(fittedParts)
    .where(and(eq(fittedParts.partId, partId), isNull(fittedParts.removedAt)))
  return rows.map(({ tag }) => tag)
}

/** Adds stays, or replaces those with the same id. */
export async function upsertFitted(tx: Db, rows: readonly FittedRow[]): Promise<void> {
  await upsertRows(
    tx,
    fittedParts,
    [fittedParts.id],
    rows.map(({ id, machineTag, partId, fittedAt = null, removedAt = null, copy }) => ({
      id,
      machineTag,
      partId,
      fittedAt,
      removedAt,
      copy,
    })),
  )
}

const keyOf = (stay: { machineTag: string; partId: string; fittedAt?: string | null | undefined }): string =>
  JSON.stringify([stay.machineTag, stay.partId, stay.fittedAt ?? null])

/** Adds stays of parts; equal ones are counted, those that are there already among them. */
export async function addFitted(tx: Db, stays: readonly FittedPart[]): Promise<void> {
  const seen = new Map<string, number>()
  for (const tag of new Set(stays.map(({ machineTag }) => machineTag)))
    for (const row of await tx.select().from(fittedParts).where(eq(fittedParts.machineTag, tag)))
      seen.set(keyOf(row), Math.max(seen.get(keyOf(row)) ?? 0, row.copy + 1))
  const rows = stays.map((stay) => {
    const copy = seen.get(keyOf(stay)) ?? 0
    seen.set(keyOf(stay), copy + 1)
    return { ...stay, copy }
  })
  await insertRows(tx, fittedParts, rows)
}

/** Takes one part of a machine out: of several equal ones the one that was in longest. Throws when there is none. */
export async function removeFitted(tx: Db, tag: string, partId: string, removedAt: string): Promise<void> {
  const [row] = await tx
    .select({ id: fittedParts.id })
    .from(fittedParts)
    .where(
      and(eq(fittedParts.machineTag, tag), eq(fittedParts.partId, partId), isNull(fittedParts.removedAt)),
    )
    .orderBy(asc(fittedParts.fittedAt), asc(fittedParts.id))
    .limit(1)
  if (row === undefined) throw new RangeError('a part that comes out is not in the machine')
  await tx.update(fittedParts).set({ removedAt }).where(eq(fittedParts.id, row.id))
}

/**
 * Makes `partIds` what is fitted now (an id twice = two of that part): rows that are not named go, new ones are dated
 * `fittedAt`, and those that stay keep their date. What came out before is not touched.
 */
export async function correctFitted(
  tx: Db,
  tag: string,
  partIds: readonly string[],
  fittedAt: string | undefined,
): Promise<void> {
  const inside = await tx
    .select()
    .from(fittedParts)
    .where(and(eq(fittedParts.machineTag, tag), isNull(fittedParts.removedAt)))
    .orderBy(asc(fittedParts.id))
  const missing = [...partIds]
  for (const row of inside) {
    const at = missing.indexOf(row.partId)
    if (at >= 0) missing.splice(at, 1)
    else await tx.delete(fittedParts).where(eq(fittedParts.id, row.id))
  }
  await addFitted(
    tx,
    missing.map((partId) => ({ machineTag: tag, partId, ...(fittedAt !== undefined && { fittedAt }) })),
  )
}
