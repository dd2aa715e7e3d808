import { and, asc, eq, isNull } from 'drizzle-orm'
import { reservations } from '../../db/schema.ts'
import type { Reservation } from '../core/job/job.ts'
import type { Db } from './open.ts'
import { insertRows, withoutNulls } from './rows.ts'

export type JobReservation = Reservation & { readonly jobId: string }

export const isOpenRow = and(isNull(reservations.releasedAt), isNull(reservations.usedAt))

/** What is put aside now, by whichever job. */
export async function openReservations(db: Db): Promise<JobReservation[]> {
  return (await db.select().from(reservations).where(isOpenRow).orderBy(asc(reservations.id))).map(rowOf)
}

/** What a job put aside, in its order; what was released or used meanwhile included. */
export async function reservationsOf(db: Db, jobId: string): Promise<JobReservation[]> {
  const rows = await db
    .select()
    .from(reservations)
    .where(eq(reservations.jobId, jobId))
    .orderBy(asc(reservations.id))
  return rows.map(rowOf)
}

export async function insertReservations(
  tx: Db,
  jobId: string,
  items: readonly Pick<Reservation, 'itemId' | 'quantity'>[],
  reservedAt: string,
): Promise<void> {
  await insertRows(
    tx,
    reservations,
    items.map(({ itemId, quantity }) => ({ jobId, itemId, quantity, reservedAt })),
  )
}

/** Ends what the job still holds: back to the shelf, or built in. */
export async function endReservations(
  tx: Db,
  jobId: string,
  how: { readonly releasedAt: string } | { readonly usedAt: string },
): Promise<void> {
  await tx
    .update(reservations)
    .set(how)
    .where(and(eq(reservations.jobId, jobId), isOpenRow))
}

const rowOf = ({ id: _, ...row }: typeof reservations.$inferSelect): JobReservation => withoutNulls(row)
