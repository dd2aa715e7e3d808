import { and, asc, desc, eq, gt, isNull, lte } from 'drizzle-orm'
import { fittedParts, warranties } from '../../db/schema.ts'
import { WARRANTY_GIVERS, type Warranty } from '../core/job/warranty.ts'
import type { Db } from './open.ts'
import { insertRows, oneOf, withoutNulls } from './rows.ts'

/** All warranties of parts that are or were in a machine, the oldest first. */
export async function warrantiesOf(db: Db, machineTag: string): Promise<Warranty[]> {
  const rows = await db
    .select()
    .from(warranties)
    .where(eq(warranties.machineTag, machineTag))
    .orderBy(asc(warranties.from), asc(warranties.id))
  return rows.map(({ id: _, givenBy, ...row }) => ({
    ...withoutNulls(row),
    givenBy: oneOf(WARRANTY_GIVERS, givenBy),
  }))
}

export async function insertWarranties(tx: Db, rows: readonly Warranty[]): Promise<void> {
  await insertRows(
    tx,
    warranties,
    rows.map(({ jobId = null, endsWith = null, ...row }) => ({ ...row, jobId, endsWith })),
  )
}

/** Takes away one warranty that began with the sale: the part is not in the machine after all. */
export async function deleteSaleWarranty(tx: Db, machineTag: string, partId: string): Promise<void> {
  const [row] = await tx
    .select({ id: warranties.id })
    .from(warranties)
    .where(
      and(eq(warranties.machineTag, machineTag), eq(warranties.partId, partId), isNull(warranties.jobId)),
    )
    .orderBy(desc(warranties.id))
    .limit(1)
  if (row !== undefined) await tx.delete(warranties).where(eq(warranties.id, row.id))
}

/** A warranty of a part that is still in its machine. */
export type EndingWarranty = Pick<Warranty, 'machineTag' | 'partId' | 'until'>

/** Warranties that end between two instants, the earliest first; of parts that came out since nothing is told. */
export async function warrantiesEnding(db: Db, from: string, until: string): Promise<EndingWarranty[]> {
  const isIn = and(
    eq(fittedParts.machineTag, warranties.machineTag),
    eq(fittedParts.partId, warranties.partId),
    isNull(fittedParts.removedAt),
  )
  return db
    .selectDistinct({
      ...{ machineTag: warranties.machineTag, partId: warranties.partId, until: warranties.until },
    })
    .from(warranties)
    .innerJoin(fittedParts, isIn)
    .where(and(gt(warranties.until, from), lte(warranties.until, until)))
    .orderBy(asc(warranties.until), asc(warranties.machineTag), asc(warranties.partId))
}
