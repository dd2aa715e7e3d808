import { and, desc, eq } from 'drizzle-orm'
import { handedSheets } from '../../db/schema.ts'
import type { LimitsSheet } from '../core/sheet/sheet.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** A limits sheet as it was handed out, with the message that went along. Rows are snapshots: nothing edits them. */
export type HandedSheet = {
  readonly id: string
  /** When it was handed out; ISO 8601 UTC. */
  readonly at: string
  readonly sheet: LimitsSheet
  readonly subject?: string | undefined
  readonly message?: string | undefined
}

const handedOf = ({ id, machineTag: _, sheet, ...row }: typeof handedSheets.$inferSelect): HandedSheet => ({
  ...withoutNulls(row),
  id: String(id),
  // Only insertHandedSheet writes them: what comes out is what went in.
  sheet: sheet as LimitsSheet,
})

/** The sheets of a machine, the last one first. */
export async function handedSheetsOf(db: Db, machineTag: string): Promise<HandedSheet[]> {
  const rows = await db
    .select()
    .from(handedSheets)
    .where(eq(handedSheets.machineTag, machineTag))
    .orderBy(desc(handedSheets.id))
  return rows.map(handedOf)
}

export async function insertHandedSheet(
  tx: Db,
  machineTag: string,
  { at, sheet, subject = null, message = null }: NewHandedSheet,
): Promise<void> {
  await tx.insert(handedSheets).values({ machineTag, at, sheet, subject, message })
}

type NewHandedSheet = {
  readonly at: string
  readonly sheet: LimitsSheet
  readonly subject?: string | null
  readonly message?: string | null
}

/** It was not handed out after all. */
export async function deleteHandedSheet(tx: Db, machineTag: string, at: string): Promise<void> {
  await tx.delete(handedSheets).where(and(eq(handedSheets.machineTag, machineTag), eq(handedSheets.at, at)))
}
