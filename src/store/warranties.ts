import { asc, eq } from 'drizzle-orm'
import { warranties } from '../../db/schema.ts'
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
