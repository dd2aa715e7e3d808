import { and, asc, desc, eq, isNull } from 'drizzle-orm'
import { ownerReadings } from '../../db/schema.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { firmwareTableSchema } from '../input/stored.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** A firmware table that an owner sent, without the table: it waits until it is taken or put aside. */
export type OwnerReading = {
  readonly id: string
  readonly machineTag: string
  /** Absent: the owner whom nobody wrote down. */
  readonly customerId?: string | undefined
  /** ISO 8601 UTC. */
  readonly at: string
  readonly takenAt?: string | undefined
  readonly asideAt?: string | undefined
}

const { firmwareTable, ...LINE } = {
  id: ownerReadings.id,
  machineTag: ownerReadings.machineTag,
  customerId: ownerReadings.customerId,
  at: ownerReadings.at,
  takenAt: ownerReadings.takenAt,
  asideAt: ownerReadings.asideAt,
  firmwareTable: ownerReadings.firmwareTable,
}
const isWaiting = and(isNull(ownerReadings.takenAt), isNull(ownerReadings.asideAt))

type Row = Pick<typeof ownerReadings.$inferSelect, keyof typeof LINE>
const lineOf = (row: Row): OwnerReading => ({ ...withoutNulls(row), id: String(row.id) })

const whoIs = (customerId: string | undefined) =>
  customerId === undefined ? isNull(ownerReadings.customerId) : eq(ownerReadings.customerId, customerId)

/** All that wait for the shop, the oldest first. */
export async function waitingReadings(db: Db, machineTag?: string): Promise<OwnerReading[]> {
  const of = machineTag === undefined ? undefined : eq(ownerReadings.machineTag, machineTag)
  const rows = await db
    .select(LINE)
    .from(ownerReadings)
    .where(and(isWaiting, of))
    .orderBy(asc(ownerReadings.id))
  return rows.map(lineOf)
}

/** What one owner sent for a machine, the newest first. */
export async function readingsFrom(
  db: Db,
  machineTag: string,
  customerId: string | undefined,
): Promise<OwnerReading[]> {
  const rows = await db
    .select(LINE)
    .from(ownerReadings)
    .where(and(eq(ownerReadings.machineTag, machineTag), whoIs(customerId)))
    .orderBy(desc(ownerReadings.id))
  return rows.map(lineOf)
}

/** One that waits, with its table. Throws a ZodError when what is stored is none. */
export async function loadWaitingReading(
  db: Db,
  id: string,
): Promise<(OwnerReading & { readonly table: FirmwareTable }) | undefined> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select({ ...LINE, firmwareTable })
    .from(ownerReadings)
    .where(and(eq(ownerReadings.id, Number(id)), isWaiting))
  if (row === undefined) return undefined
  const { firmwareTable: table, ...line } = row
  return { ...lineOf(line), table: firmwareTableSchema.parse(table) }
}

/** Keeps one in place of the one that still waits from the same owner. Throws a ZodError on a field with no place. */
export async function insertOwnerReading(
  tx: Db,
  { machineTag, customerId, at }: Pick<OwnerReading, 'machineTag' | 'customerId' | 'at'>,
  table: FirmwareTable,
): Promise<string> {
  await tx
    .delete(ownerReadings)
    .where(and(eq(ownerReadings.machineTag, machineTag), whoIs(customerId), isWaiting))
  // As JSON first: absent and undefined are one there.
  const kept = firmwareTableSchema.parse(JSON.parse(JSON.stringify(table)))
  const [row] = await tx
    .insert(ownerReadings)
    .values({ machineTag, customerId: customerId ?? null, at, firmwareTable: kept })
    .returning({ id: ownerReadings.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** Taken into the machine's readings, or put aside; false where it no longer waits. */
export async function settleReading(
  tx: Db,
  id: string,
  machineTag: string,
  how: 'takenAt' | 'asideAt',
  at: string,
): Promise<boolean> {
  if (!/^\d{1,15}$/.test(id)) return false
  const settled = await tx
    .update(ownerReadings)
    .set({ [how]: at })
    .where(and(eq(ownerReadings.id, Number(id)), eq(ownerReadings.machineTag, machineTag), isWaiting))
    .returning({ id: ownerReadings.id })
  return settled.length > 0
}
