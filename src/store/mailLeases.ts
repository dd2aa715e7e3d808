import { and, asc, eq, gt, inArray, isNotNull, isNull, lt, or, sql } from 'drizzle-orm'
import { mailServerState, mails, mailTakings } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { addMailEvent, type Mail, mailOf, WITHOUT_BYTES } from './outbox.ts'
import { isDue } from './outboxLists.ts'

export type Lease = {
  /** One for each process and start of it. */
  readonly id: string
  /** ISO 8601 UTC. */
  readonly until: string
}

const MINUTE_MS = 60_000
const later = (at: string, ms: number): string => new Date(Date.parse(at) + ms).toISOString()

/** How many more may be taken now, so that all processes together take no more than `perMinute` in any minute. */
async function roomNow(tx: Db, perMinute: number, at: string): Promise<number> {
  // What was taken in minutes to come was taken under a clock that has been put back since.
  await tx
    .delete(mailTakings)
    .where(or(lt(mailTakings.at, later(at, -MINUTE_MS)), gt(mailTakings.at, later(at, MINUTE_MS))))
  const [row] = await tx.select({ n: sql<number>`coalesce(sum(${mailTakings.mails}), 0)` }).from(mailTakings)
  return Math.max(0, perMinute - (row?.n ?? 0))
}

/**
 * Takes up to `most` mails that are due, the longest due first, in one transaction: no other process can take them until the
 * lease ends. `perMinute` holds over all processes.
 */
export async function takeDue(
  tx: Db,
  lease: Lease,
  { most, perMinute, at }: { readonly most: number; readonly perMinute: number; readonly at: string },
): Promise<Mail[]> {
  const room = Math.min(most, await roomNow(tx, perMinute, at))
  if (room === 0) return []
  const due = tx
    .select({ id: mails.id })
    .from(mails)
    .where(isDue(at))
    .orderBy(asc(sql`coalesce(${mails.dueAt}, ${mails.approvedAt})`), asc(mails.id))
    .limit(room)
  const taken = await tx
    .update(mails)
    .set({
      ...{ state: 'sending', leaseId: lease.id, leaseUntil: lease.until, handedAt: null, updatedAt: at },
      tries: sql`${mails.tries} + 1`,
      firstTriedAt: sql`coalesce(${mails.firstTriedAt}, ${at})`,
    })
    .where(inArray(mails.id, due))
    .returning(WITHOUT_BYTES)
  if (taken.length > 0) await tx.insert(mailTakings).values({ at, mails: taken.length })
  return taken.map(mailOf)
}

/**
 * The end of the mail is about to leave this process. False where the lease went to another meanwhile: then it must not
 * leave. From here on nobody sends it again by itself.
 */
export async function markHandedOver(tx: Db, id: string, leaseId: string, at: string): Promise<boolean> {
  const marked = await tx
    .update(mails)
    .set({ handedAt: at })
    .where(
      and(
        eq(mails.id, Number(id)),
        eq(mails.state, 'sending'),
        eq(mails.leaseId, leaseId),
        isNull(mails.handedAt),
      ),
    )
    .returning({ id: mails.id })
  return marked.length > 0
}

export async function renewLeases(tx: Db, { id, until }: Lease): Promise<void> {
  await tx
    .update(mails)
    .set({ leaseUntil: until })
    .where(and(eq(mails.leaseId, id), eq(mails.state, 'sending')))
}

/**
 * What a process left behind that was stopped: mails that were not handed over go back and are due; of those that were,
 * nobody knows whether they were taken, so they are held for a person. Where sending twice makes one (`isRepeatable`), all
 * go back. Gives how many. A lease that ends later than twice `leaseMs` from now was taken under a clock that has been put back
 * since, and nobody waits for that clock.
 */
export async function endLeases(tx: Db, at: string, isRepeatable: boolean, leaseMs: number): Promise<number> {
  const isOver = or(lt(mails.leaseUntil, at), gt(mails.leaseUntil, later(at, 2 * leaseMs)))
  const ended = and(eq(mails.state, 'sending'), isOver)
  const goBack = isRepeatable ? ended : and(ended, isNull(mails.handedAt))
  const back = await tx
    .update(mails)
    .set({ state: 'approved', leaseId: null, leaseUntil: null, dueAt: at, updatedAt: at })
    .where(goBack)
    .returning({ id: mails.id })
  const held = await tx
    .update(mails)
    // The lease's name stays: whoever had it may still learn how it ended.
    .set({ state: 'held', leaseUntil: null, updatedAt: at })
    .where(and(ended, isNotNull(mails.handedAt)))
    .returning({ id: mails.id })
  for (const { id } of back) await addMailEvent(tx, String(id), { event: 'lease ended', at })
  for (const { id } of held) await addMailEvent(tx, String(id), { event: 'no reply', at })
  return back.length + held.length
}

/** The mail server, while it is in the way of everything. */
export type ServerTrouble = {
  readonly failures: number
  readonly since: string
  readonly nextTryAt: string
  readonly says: string
}

export async function serverTrouble(db: Db): Promise<ServerTrouble | undefined> {
  const [row] = await db.select().from(mailServerState)
  if (row === undefined || row.failures === 0) return undefined
  const { id: _, ...trouble } = row
  return trouble
}

/** Undefined: it answers again. */
export async function saveServerTrouble(tx: Db, trouble: ServerTrouble | undefined): Promise<void> {
  if (trouble === undefined) await tx.delete(mailServerState)
  else
    await tx
      .insert(mailServerState)
      .values({ id: 1, ...trouble })
      .onConflictDoUpdate({ target: mailServerState.id, set: trouble })
}
