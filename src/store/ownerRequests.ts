import { and, asc, eq } from 'drizzle-orm'
import { ownerRequests } from '../../db/schema.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

export const REQUEST_STATES = ['open', 'answered', 'withdrawn'] as const

/** One limit of a machine that its owner was asked for. */
export type OwnerRequest = {
  readonly id: string
  readonly machineTag: string
  /** The question that waits for it; absent: asked for the machine's own sake. */
  readonly questionId?: string | undefined
  readonly limitKey: LimitKey
  readonly state: (typeof REQUEST_STATES)[number]
  readonly askedAt: string
  readonly answeredAt?: string | undefined
  readonly note?: string | undefined
}

export type NewRequest = Pick<OwnerRequest, 'machineTag' | 'questionId' | 'limitKey' | 'note'>

export async function insertRequest(tx: Db, request: NewRequest, at: string): Promise<string> {
  const { machineTag, questionId = null, limitKey, note = null } = request
  const [row] = await tx
    .insert(ownerRequests)
    .values({ machineTag, questionId, limitKey, note, state: 'open', askedAt: at })
    .returning({ id: ownerRequests.id })
  if (row === undefined) throw new Error('the insert gave no id')
  return String(row.id)
}

/** All requests of a machine, the oldest first. */
export async function requestsOfMachine(db: Db, machineTag: string): Promise<OwnerRequest[]> {
  const rows = await db
    .select()
    .from(ownerRequests)
    .where(eq(ownerRequests.machineTag, machineTag))
    .orderBy(asc(ownerRequests.id))
  return rows.map(requestOf)
}

/** Every request that still waits, of one machine or of all. */
export async function openRequests(db: Db, machineTag?: string): Promise<OwnerRequest[]> {
  const open = eq(ownerRequests.state, 'open')
  const rows = await db
    .select()
    .from(ownerRequests)
    .where(machineTag === undefined ? open : and(open, eq(ownerRequests.machineTag, machineTag)))
    .orderBy(asc(ownerRequests.id))
  return rows.map(requestOf)
}

/** Undefined for an unknown id. */
export async function loadRequest(db: Db, id: string): Promise<OwnerRequest | undefined> {
  if (!/^\d{1,15}$/.test(id)) return undefined
  const [row] = await db
    .select()
    .from(ownerRequests)
    .where(eq(ownerRequests.id, Number(id)))
  return row && requestOf(row)
}

/** `at`: when the limit came; absent for a request that is withdrawn. */
export async function endRequest(
  tx: Db,
  id: string,
  state: 'answered' | 'withdrawn',
  at?: string,
): Promise<void> {
  await tx
    .update(ownerRequests)
    .set({ state, answeredAt: at ?? null })
    .where(eq(ownerRequests.id, Number(id)))
}

const requestOf = (row: typeof ownerRequests.$inferSelect): OwnerRequest => {
  const { remindAt: _, ...rest } = withoutNulls(row)
  return {
    ...rest,
    id: String(row.id),
    limitKey: oneOf(LIMIT_KEYS, row.limitKey),
    state: oneOf(REQUEST_STATES, row.state),
  }
}
