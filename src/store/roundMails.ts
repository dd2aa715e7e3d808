import { and, eq, inArray, isNotNull, isNull, or, sql } from 'drizzle-orm'
import { mails, roundSeats } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { addMailEvent } from './outbox.ts'

const mailsOf = (roundId: string) =>
  sql`${mails.id} in (select ${roundSeats.mailId} from ${roundSeats} where ${roundSeats.roundId} = ${roundId})`

const isWaiting = or(eq(mails.state, 'approved'), and(eq(mails.state, 'sending'), isNull(mails.handedAt)))

/**
 * Holds what waits to be sent of a round, also what is on its way and not handed over: whoever has it finds it taken away
 * before the end of the mail leaves, and it used up no try. Gives how many.
 */
export async function pauseMailsOf(tx: Db, roundId: string, at: string): Promise<number> {
  const held = await tx
    .update(mails)
    .set({
      ...{ state: 'approved', pausedAt: at, leaseUntil: null, updatedAt: at },
      tries: sql`${mails.tries} - (${mails.state} = 'sending')`,
    })
    .where(and(mailsOf(roundId), isWaiting))
    .returning({ id: mails.id })
  for (const { id } of held)
    await addMailEvent(tx, String(id), { event: 'put off', at, says: 'round paused' })
  return held.length
}

/** What waited for that goes on; when it is due did not change. */
export async function resumeMailsOf(tx: Db, roundId: string, at: string): Promise<void> {
  await tx
    .update(mails)
    .set({ pausedAt: null, updatedAt: at })
    .where(and(mailsOf(roundId), isNotNull(mails.pausedAt)))
}

/** Ends what waits of a round, of these customers alone where they are named. Gives their mails. */
export async function stopMailsOf(
  tx: Db,
  roundId: string,
  says: string,
  at: string,
  only?: readonly string[],
): Promise<string[]> {
  const which = only === undefined ? mailsOf(roundId) : inArray(mails.id, only.map(Number))
  const stopped = await tx
    .update(mails)
    .set({ state: 'stopped', says, pausedAt: null, leaseUntil: null, updatedAt: at })
    .where(and(which, or(isWaiting, eq(mails.state, 'drafted'))))
    .returning({ id: mails.id })
  for (const { id } of stopped) await addMailEvent(tx, String(id), { event: 'stopped', at, says })
  return stopped.map(({ id }) => String(id))
}

/** Mails of a round that never left and will not: whom they were to was not asked. */
export async function unsentMailsOf(db: Db, roundId: string): Promise<ReadonlySet<string>> {
  const rows = await db
    .select({ id: mails.id })
    .from(mails)
    .where(and(mailsOf(roundId), inArray(mails.state, ['stopped', 'failed'])))
  return new Set(rows.map(({ id }) => String(id)))
}
