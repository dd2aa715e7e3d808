import { asc, eq } from 'drizzle-orm'
import { ownerReports } from '../../db/schema.ts'
import type { OwnerReport } from '../core/job/job.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** What owners said of one machine, the oldest first. No other table reads this one: it is never a run. */
export async function reportsOfMachine(db: Db, machineTag: string): Promise<OwnerReport[]> {
  const rows = await db
    .select()
    .from(ownerReports)
    .where(eq(ownerReports.machineTag, machineTag))
    .orderBy(asc(ownerReports.at), asc(ownerReports.id))
  return rows.map(({ id: _, ...row }) => withoutNulls(row))
}

/** All of them, the oldest first. */
export async function listOwnerReports(db: Db): Promise<OwnerReport[]> {
  const rows = await db.select().from(ownerReports).orderBy(asc(ownerReports.at), asc(ownerReports.id))
  return rows.map(({ id: _, ...row }) => withoutNulls(row))
}

export async function insertOwnerReport(tx: Db, report: OwnerReport): Promise<void> {
  await tx.insert(ownerReports).values(report)
}
