import { asc, eq, sql } from 'drizzle-orm'
import { mailEvents, mails } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { addMailEvent, addressKey, type Mail, mailOf, WITHOUT_BYTES } from './outbox.ts'

/** When a mail to that address last came back; undefined where a later one was sent and stayed. */
export async function cameBackAt(db: Db, address: string): Promise<string | undefined> {
  const [row] = await db
    .select({
      back: sql<string | null>`max(${mails.cameBackAt})`,
      stayed: sql<string | null>`max(case when ${mails.cameBackAt} is null then ${mails.sentAt} end)`,
    })
    .from(mails)
    .where(eq(mails.toKey, addressKey(address)))
  const back = row?.back ?? undefined
  return back !== undefined && (row?.stayed ?? '') > back ? undefined : back
}

/** Mails to one customer, the oldest first. */
export async function mailsOfCustomer(db: Db, customerId: string): Promise<Mail[]> {
  const rows = await db
    .select(WITHOUT_BYTES)
    .from(mails)
    .where(eq(mails.customerId, customerId))
    .orderBy(asc(mails.id))
  return rows.map(mailOf)
}

/** Takes every word about a person out of their mails and what happened to them; what waits is stopped. Numbers and dates stay. */
export async function eraseMailsOf(tx: Db, customerId: string, at: string): Promise<void> {
  for (const { id, state } of await mailsOfCustomer(tx, customerId)) {
    await tx
      .update(mailEvents)
      .set({ says: null })
      .where(eq(mailEvents.mailId, Number(id)))
    const isWaiting = ['drafted', 'approved', 'held', 'failed'].includes(state)
    if (isWaiting) await addMailEvent(tx, id, { event: 'stopped', at })
    await tx
      .update(mails)
      .set({
        ...{ toName: '', toAddress: '', toKey: '', subject: '', html: '', text: '', says: null },
        ...{ notice: null, edits: null, bytes: null, unsubscribeToken: null, updatedAt: at },
        ...(isWaiting && { state: 'stopped' }),
      })
      .where(eq(mails.id, Number(id)))
  }
}
