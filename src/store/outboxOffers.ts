import { and, eq, inArray, isNull, or, sql } from 'drizzle-orm'
import { mails } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { addMailEvent, type MailStep } from './outbox.ts'

/**
 * Offers that wait for this customer, are on their way and not handed over, or that somebody could send again (failed before
 * they went, or in doubt): all are stopped. One in doubt may have gone, and counts as gone by when it was handed over. Gives
 * how many.
 */
export async function stopOffersTo(tx: Db, customerId: string, step: MailStep): Promise<number> {
  const stopped = await tx
    .update(mails)
    .set({ state: 'stopped', updatedAt: step.at, says: step.says ?? null, leaseUntil: null })
    .where(
      and(
        eq(mails.customerId, customerId),
        eq(mails.kind, 'offer'),
        or(
          inArray(mails.state, ['drafted', 'approved', 'held']),
          and(eq(mails.state, 'sending'), isNull(mails.handedAt)),
          and(eq(mails.state, 'failed'), isNull(mails.sentAt)),
        ),
      ),
    )
    .returning({ id: mails.id })
  for (const { id } of stopped) await addMailEvent(tx, String(id), step)
  return stopped.length
}

const HELD_AS_GONE = 'said gone'

/**
 * Offers about a machine whose owner said it has gone: those approved wait until they can no longer take it back, also those
 * on their way and not handed over, which used up no try. What is due then is looked at again before it goes.
 */
export async function holdOffersAbout(tx: Db, machineTag: string, until: string, at: string): Promise<void> {
  const held = await tx
    .update(mails)
    .set({
      ...{ state: 'approved', dueAt: until, says: HELD_AS_GONE, leaseUntil: null, updatedAt: at },
      tries: sql`${mails.tries} - (${mails.state} = 'sending')`,
    })
    .where(
      and(
        ...[eq(mails.machineTag, machineTag), eq(mails.kind, 'offer')],
        or(eq(mails.state, 'approved'), and(eq(mails.state, 'sending'), isNull(mails.handedAt))),
      ),
    )
    .returning({ id: mails.id })
  for (const { id } of held) await addMailEvent(tx, String(id), { event: 'put off', at, says: HELD_AS_GONE })
}

/** The owner has it after all: what waited for that is due now. */
export async function releaseOffersAbout(tx: Db, machineTag: string, at: string): Promise<void> {
  await tx
    .update(mails)
    .set({ dueAt: at, says: null, updatedAt: at })
    .where(
      and(
        ...[eq(mails.machineTag, machineTag), eq(mails.kind, 'offer')],
        ...[eq(mails.state, 'approved'), eq(mails.says, HELD_AS_GONE)],
      ),
    )
}

/** When offers went to a customer, ISO 8601 UTC; those that may have gone count too. */
export async function offersSentTo(db: Db, customerId: string): Promise<string[]> {
  const rows = await db
    .select({ at: sql<string>`coalesce(${mails.sentAt}, ${mails.handedAt})` })
    .from(mails)
    .where(
      and(
        eq(mails.customerId, customerId),
        eq(mails.kind, 'offer'),
        sql`coalesce(${mails.sentAt}, ${mails.handedAt}) is not null`,
      ),
    )
  return rows.map(({ at }) => at)
}

/** When each customer last got an offer, ISO 8601 UTC, by customer id; one that may have gone counts too. */
export async function lastOfferByCustomer(db: Db): Promise<Map<string, string>> {
  const rows = await db
    .select({
      id: mails.customerId,
      at: sql<string | null>`max(coalesce(${mails.sentAt}, ${mails.handedAt}))`,
    })
    .from(mails)
    .where(eq(mails.kind, 'offer'))
    .groupBy(mails.customerId)
  return new Map(rows.flatMap(({ id, at }) => (id === null || at === null ? [] : [[id, at]])))
}
