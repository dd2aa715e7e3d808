import { asc, desc, eq } from 'drizzle-orm'
import { readings } from '../../db/schema.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { firmwareTableSchema } from '../input/stored.ts'
import type { Db } from './open.ts'

/** A firmware table that a machine gave of itself, and when. */
export type Reading = { readonly at: string; readonly table: FirmwareTable }

/** The last reading of a machine. Throws a ZodError when what is stored is none. */
export async function lastReading(db: Db, machineTag: string): Promise<Reading | undefined> {
  const [row] = await db
    .select({ at: readings.at, table: readings.firmwareTable })
    .from(readings)
    .where(eq(readings.machineTag, machineTag))
    .orderBy(desc(readings.id))
    .limit(1)
  return row === undefined ? undefined : { at: row.at, table: firmwareTableSchema.parse(row.table) }
}

/** When a machine was read, the oldest first. */
export async function readingDates(db: Db, machineTag: string): Promise<string[]> {
  const rows = await db
    .select({ at: readings.at })
    .from(readings)
    .where(eq(readings.machineTag, machineTag))
    .orderBy(asc(readings.id))
  return rows.map(({ at }) => at)
}

/** Keeps one more reading. Throws a ZodError on a field that a reading has no place for. */
export async function insertReading(tx: Db, machineTag: string, { at, table }: Reading): Promise<void> {
  // As JSON first: absent and undefined are one there.
  const firmwareTable = firmwareTableSchema.parse(JSON.parse(JSON.stringify(table)))
  await tx.insert(readings).values({ machineTag, at, firmwareTable })
}
