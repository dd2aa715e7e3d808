import { failed } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import { loadAccount } from '../../store/accounts.ts'
import type { Store } from '../../store/open.ts'
import { deleteAttempts, loadSession, setProven } from '../../store/sessions.ts'
import { placeOf } from './accessLog.ts'
import { beginAttempt, CROWDED } from './attempts.ts'
import { type Cost, isPassword } from './passwordHash.ts'
import { hashOf } from './secrets.ts'
import type { Tried } from './signIn.ts'

/** Shop policy, after OWASP ASVS 4.0, 3.7.1: how long a password that was typed opens accounts and keys. */
export const PROOF_MINUTES = 15
const MINUTE_MS = 60_000

/** Whether the password was typed in this browser lately; signing in counts. */
export async function isProven(store: Store, token: string, at: string): Promise<boolean> {
  const since = new Date(Date.parse(at) - PROOF_MINUTES * MINUTE_MS).toISOString()
  const provenAt = (await loadSession(store.db, hashOf(token)))?.provenAt
  return provenAt !== undefined && since < provenAt
}

export type Proof = { readonly token: string; readonly password: string; readonly address: string }

/** Takes the password of whoever is signed in in this browser once more; wrong ones are slowed like sign-ins. */
export async function prove(store: Store, given: Proof, at: string, cost: Cost): Promise<Tried<undefined>> {
  const tokenHash = hashOf(given.token)
  const session = await loadSession(store.db, tokenHash)
  const account = session && (await loadAccount(store.db, session.accountId))
  if (account?.passwordHash === undefined)
    return failed({ code: 'not found', field: 'account', next: 'Nobody is signed in here any more.' })
  const by = { name: account.nameKey, address: given.address, accountId: account.id }
  const begun = await beginAttempt(store, by, at)
  if (!begun.ok) return { ...begun, problems: begun.problems.map((p) => ({ ...p, field: 'proof' })) }
  const isRight = await isPassword(given.password, account.passwordHash, cost)
  if (isRight === undefined) return failed({ ...CROWDED, field: 'proof' })
  const place = placeOf(begun.attempt.addressHash)
  await store.write(async (tx) => {
    const what = isRight ? 'password typed' : 'password refused'
    await noteAccess(tx, { at, what, by: account.name, place })
    if (!isRight) return
    await deleteAttempts(tx, begun.attempt)
    await setProven(tx, tokenHash, at)
  })
  return isRight
    ? { ok: true, value: undefined }
    : failed({ code: 'not allowed', field: 'proof', next: 'This is not your password.' })
}
