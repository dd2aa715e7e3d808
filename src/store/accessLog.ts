import { desc, lt, sql } from 'drizzle-orm'
import { accessLog } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { oneOf, withoutNulls } from './rows.ts'

/** What matters for access. Words for each stand on the page that shows them. */
export const ACCESS_EVENTS = [
  ...['signed in', 'sign-in refused', 'signed out everywhere', 'password typed', 'password refused'],
  ...['password changed', 'code made', 'code used', 'account added', 'account closed', 'account opened'],
  ...['key made', 'key taken back', 'table exported', 'owner link made', 'owner links taken back'],
  ...['customer exported', 'erase asked', 'erase taken back', 'customer erased'],
] as const

export type AccessEvent = {
  readonly what: (typeof ACCESS_EVENTS)[number]
  readonly at: string
  /** Name of the account or key at that time; absent for nobody who is known. */
  readonly by?: string | undefined
  /** What was acted on: name of an account or key, tag of a machine, name of a table. */
  readonly about?: string | undefined
  /** The same network is the same mark; it tells nothing else. */
  readonly place?: string | undefined
}
export type KeptEvent = AccessEvent & { readonly id: number }

/** How long an event is kept: more than a year, so that what comes up once a year has its like before it. */
export const KEPT_DAYS = 400
/** Strangers decide how often a sign-in is refused, so of those no more than this are kept. */
export const REFUSED_MAX = 2000
const DAY_MS = 86_400_000

/** Adds an event; those that are too old go. */
export async function noteAccess(tx: Db, event: AccessEvent): Promise<void> {
  const since = new Date(Date.parse(event.at) - KEPT_DAYS * DAY_MS).toISOString()
  await tx.insert(accessLog).values(event)
  await tx.delete(accessLog).where(lt(accessLog.at, since))
  if (event.what !== 'sign-in refused') return
  await tx.run(sql`delete from ${accessLog} where ${accessLog.what} = ${event.what} and ${accessLog.id} not in
    (select id from ${accessLog} where ${accessLog.what} = ${event.what} order by id desc limit ${REFUSED_MAX})`)
}

/** So many events before one (by its key), the newest first; without it the newest. */
export async function listAccess(db: Db, most: number, before?: number): Promise<KeptEvent[]> {
  const where = before === undefined ? undefined : lt(accessLog.id, before)
  const rows = await db.select().from(accessLog).where(where).orderBy(desc(accessLog.id)).limit(most)
  return rows.map((row) => ({ ...withoutNulls(row), what: oneOf(ACCESS_EVENTS, row.what) }))
}
