import { noteAccess } from '../../store/accessLog.ts'
import type { Account, Role } from '../../store/accounts.ts'
import { loadAccount } from '../../store/accounts.ts'
import type { Db, Store } from '../../store/open.ts'
import {
  deleteOldSessions,
  deleteSession,
  deleteSessions,
  insertSession,
  loadSession,
  type Session,
  touchSession,
} from '../../store/sessions.ts'
import { addressHashOf } from './attempts.ts'
import { hashOf, newSecret } from './secrets.ts'

const DAY_MS = 86_400_000

/** Shop policy: a browser that was not used for so long is signed out, and each one after so long anyway. */
export const IDLE_DAYS = 14
export const LONGEST_DAYS = 90

/** When a session was last used is written down no more often than this. */
const TOUCH_MS = 15 * 60_000

/** Who is signed in. */
export type SignedIn = { readonly accountId: string; readonly name: string; readonly role: Role }

/** A browser was signed in: what its cookie holds is given out this once. */
export type Opened = { readonly token: string; readonly signedIn: SignedIn }

const before = (at: string, ms: number): string => new Date(Date.parse(at) - ms).toISOString()

const signedInOf = ({ id, name, role }: Account): SignedIn => ({ accountId: String(id), name, role })

/** Signs a browser in under a token that was never used before. */
export async function openSession(
  tx: Db,
  account: Account,
  { address, earlier }: { readonly address: string; readonly earlier?: string | undefined },
  at: string,
): Promise<Opened> {
  await deleteOldSessions(tx, before(at, IDLE_DAYS * DAY_MS), at)
  if (earlier !== undefined) await deleteSession(tx, hashOf(earlier))
  const token = newSecret()
  await insertSession(tx, {
    ...{ tokenHash: hashOf(token), accountId: account.id, createdAt: at, seenAt: at },
    expiresAt: before(at, -LONGEST_DAYS * DAY_MS),
    addressHash: addressHashOf(address),
    provenAt: at,
  })
  return { token, signedIn: signedInOf(account) }
}

const holds = (session: Session, at: string): boolean =>
  at < session.expiresAt && before(at, IDLE_DAYS * DAY_MS) < session.seenAt

/** Who a browser is signed in as at this instant; undefined when nobody, or no more. */
export async function sessionOf(store: Store, token: string, at: string): Promise<SignedIn | undefined> {
  const tokenHash = hashOf(token)
  const session = await loadSession(store.db, tokenHash)
  if (session === undefined || !holds(session, at)) return undefined
  const account = await loadAccount(store.db, session.accountId)
  if (account === undefined || account.disabledAt !== undefined) return undefined
  if (session.seenAt < before(at, TOUCH_MS))
    // A page is not refused because the database is held at this moment; the next page writes it down.
    await store.write((tx) => touchSession(tx, tokenHash, at)).catch(() => {})
  return signedInOf(account)
}

export async function signOut(store: Store, token: string): Promise<void> {
  await store.write((tx) => deleteSession(tx, hashOf(token)))
}

/** Signs an account out of every browser. */
export async function signOutEverywhere(store: Store, accountId: string, at: string): Promise<void> {
  await store.write(async (tx) => {
    const account = await loadAccount(tx, Number(accountId))
    await deleteSessions(tx, Number(accountId))
    await noteAccess(tx, { at, what: 'signed out everywhere', by: account?.name, about: account?.name })
  })
}
