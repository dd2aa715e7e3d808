import { and, eq, gte, lt, or } from 'drizzle-orm'
import { sessions, signInAttempts } from '../../db/schema.ts'
import type { Db } from './open.ts'
import { withoutNulls } from './rows.ts'

/** A browser that is signed in. */
export type Session = {
  readonly tokenHash: string
  readonly accountId: number
  readonly createdAt: string
  readonly seenAt: string
  readonly expiresAt: string
  readonly addressHash: string
  /** When the password was last typed in it. */
  readonly provenAt?: string | undefined
}

export async function insertSession(tx: Db, session: Session): Promise<void> {
  await tx.insert(sessions).values(session)
}

/** By its hash, whether it still holds or not. */
export async function loadSession(db: Db, tokenHash: string): Promise<Session | undefined> {
  const [row] = await db.select().from(sessions).where(eq(sessions.tokenHash, tokenHash))
  return row && withoutNulls(row)
}

export async function listSessions(db: Db): Promise<Session[]> {
  return (await db.select().from(sessions)).map(withoutNulls)
}

export async function touchSession(tx: Db, tokenHash: string, seenAt: string): Promise<void> {
  await tx.update(sessions).set({ seenAt }).where(eq(sessions.tokenHash, tokenHash))
}

export async function setProven(tx: Db, tokenHash: string, provenAt: string): Promise<void> {
  await tx.update(sessions).set({ provenAt }).where(eq(sessions.tokenHash, tokenHash))
}

export async function deleteSession(tx: Db, tokenHash: string): Promise<void> {
  await tx.delete(sessions).where(eq(sessions.tokenHash, tokenHash))
}

/** Ends every session of an account. */
export async function deleteSessions(tx: Db, accountId: number): Promise<void> {
  await tx.delete(sessions).where(eq(sessions.accountId, accountId))
}

/** Takes away what ended by itself: not seen since the one instant, or over at the other. */
export async function deleteOldSessions(tx: Db, unseenSince: string, at: string): Promise<void> {
  await tx.delete(sessions).where(or(lt(sessions.seenAt, unseenSince), lt(sessions.expiresAt, at)))
}

/** Whether this account is signed in, or was lately, from an address. */
export async function isKnownAddress(db: Db, accountId: number, addressHash: string): Promise<boolean> {
  const where = and(eq(sessions.accountId, accountId), eq(sessions.addressHash, addressHash))
  return (await db.select({ at: sessions.createdAt }).from(sessions).where(where).limit(1)).length > 0
}

/** A sign-in that failed, or is being looked at. */
export type Attempt = { readonly at: string; readonly nameHash: string; readonly addressHash: string }

export async function insertAttempt(tx: Db, attempt: Attempt): Promise<void> {
  await tx.insert(signInAttempts).values(attempt)
}

/** Attempts with this name or from this address, since an instant. */
export async function attemptsAround(
  db: Db,
  { nameHash, addressHash }: Omit<Attempt, 'at'>,
  since: string,
): Promise<Attempt[]> {
  const { at, ...of } = signInAttempts
  return db
    .select({ at, nameHash: of.nameHash, addressHash: of.addressHash })
    .from(signInAttempts)
    .where(and(gte(at, since), or(eq(of.nameHash, nameHash), eq(of.addressHash, addressHash))))
}

/** Forgets the attempts of a name from an address: whoever it was is in. */
export async function deleteAttempts(tx: Db, { nameHash, addressHash }: Omit<Attempt, 'at'>): Promise<void> {
  await tx
    .delete(signInAttempts)
    .where(and(eq(signInAttempts.nameHash, nameHash), eq(signInAttempts.addressHash, addressHash)))
}

export async function deleteOldAttempts(tx: Db, before: string): Promise<void> {
  await tx.delete(signInAttempts).where(lt(signInAttempts.at, before))
}
