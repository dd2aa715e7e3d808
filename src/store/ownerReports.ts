import { asc, eq } from 'drizzle-orm'
import { ownerReports } from '../../db/schema.ts'
import type { OwnerReport } from '../core/job/job.ts'
import type { Db } from './open.ts'
import { insertRows, upsertRows, withoutNulls } from './rows.ts'

/** What owners said of one machine, the oldest first. No other table reads this one: it is never a run. */
export async function reportsOfMachine(db: Db, machineTag: string): Promise<OwnerReport[]> {
  const rows = await db
    .select()
    .from(ownerReports)
    .where(eq(ownerReports.machineTag, machineTag))
    .orderBy(asc(ownerReports.at), asc(ownerReports.id))
  return rows.map(({ id: _, ...row }) => withoutNulls(row))
}

/** A stored report with its number. */
export type OwnerReportRow = OwnerReport & { readonly id?: number | undefined }

/** All of them, the oldest first. */
export async function listOwnerReports(db: Db): Promise<OwnerReportRow[]> {
  const rows = await db.select().from(ownerReports).orderBy(asc(ownerReports.at), asc(ownerReports.id))
  return rows.map(withoutNulls)
}

/** Adds reports without a number, and replaces those with one. */
export async function upsertOwnerReports(tx: Db, rows: readonly OwnerReportRow[]): Promise<void> {
  const full = rows.map(({ jobId = null, customerId = null, low1Fps = null, note = null, ...row }) => ({
    ...{ ...row, jobId, customerId, low1Fps, note },
  }))
  await insertRows(
    tx,
    ownerReports,
    full.filter(({ id }) => id === undefined),
  )
  const known = full.filter(({ id }) => id !== undefined)
  await upsertRows(tx, ownerReports, [ownerReports.id], known)
}

export async function insertOwnerReport(tx: Db, report: OwnerReport): Promise<void> {
  await tx.insert(ownerReports).values(report)
}
