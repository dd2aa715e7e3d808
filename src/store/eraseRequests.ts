import { and, asc, eq, isNull } from 'drizzle-orm'
import { eraseRequests } from '../../db/schema.ts'
import { CONSENT_SOURCES, type ConsentSource } from '../core/consent.ts'
import type { Db } from './open.ts'
import { oneOf } from './rows.ts'

/** A customer who asked to be erased, and was not yet. */
export type EraseRequest = {
  readonly customerId: string
  /** ISO 8601 UTC. */
  readonly askedAt: string
  readonly source: ConsentSource
}

const isOpen = and(isNull(eraseRequests.takenBackAt), isNull(eraseRequests.doneAt))

/** All that wait, the oldest first. */
export async function openEraseRequests(db: Db): Promise<EraseRequest[]> {
  const rows = await db.select().from(eraseRequests).where(isOpen).orderBy(asc(eraseRequests.id))
  return rows.map(({ customerId, askedAt, source }) => ({
    ...{ customerId, askedAt },
    source: oneOf(CONSENT_SOURCES, source),
  }))
}

export const eraseRequestOf = async (db: Db, customerId: string): Promise<EraseRequest | undefined> =>
  (await openEraseRequests(db)).find((request) => request.customerId === customerId)

export async function insertEraseRequest(tx: Db, request: EraseRequest): Promise<void> {
  await tx.insert(eraseRequests).values(request)
}

/** Taken back by whoever asked, or carried out. */
export async function endEraseRequest(
  tx: Db,
  customerId: string,
  how: 'takenBackAt' | 'doneAt',
  at: string,
): Promise<void> {
  await tx
    .update(eraseRequests)
    .set({ [how]: at })
    .where(and(eq(eraseRequests.customerId, customerId), isOpen))
}
