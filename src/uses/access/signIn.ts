import { failed, type Problem } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import { accountNamed, setPasswordHash } from '../../store/accounts.ts'
import type { Store } from '../../store/open.ts'
import { deleteAttempts } from '../../store/sessions.ts'
import { placeOf } from './accessLog.ts'
import { nameKeyOf } from './accountName.ts'
import { beginAttempt, CROWDED } from './attempts.ts'
import { type Opened, openSession } from './openSession.ts'
import { type Cost, hashPassword, isDated, isPassword } from './passwordHash.ts'
import { PASSWORD_MAX } from './passwordRules.ts'

/** Like a `Result`; where trying was too early, with what is still to wait. */
export type Tried<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly waitSeconds?: number }

/** The same for a name nobody has, a wrong password and an account that was closed. */
const WRONG: Problem = {
  code: 'not allowed',
  field: 'password',
  next: 'This name and password do not belong together. Check both, or ask for a new code.',
}

export type SignIn = {
  readonly name: string
  readonly password: string
  readonly address: string
  /** What the browser's cookie held before: that session ends. */
  readonly earlier?: string | undefined
}

/** Signs in with name and password. One hash is computed whatever the name, so that the time tells nothing. */
export async function signIn(store: Store, given: SignIn, at: string, cost: Cost): Promise<Tried<Opened>> {
  const name = nameKeyOf(given.name)
  const account = await accountNamed(store.db, name)
  const begun = await beginAttempt(store, { name, address: given.address, accountId: account?.id }, at)
  if (!begun.ok) return begun
  const stored = account?.disabledAt === undefined ? account?.passwordHash : undefined
  // Nobody has a password of that length, and hashing megabytes is work that a stranger may not ask for.
  const password = given.password.length > 4 * PASSWORD_MAX ? '' : given.password
  const isRight = await isPassword(password, stored, cost)
  if (isRight === undefined) return failed(CROWDED)
  const event = { at, by: account?.name, place: placeOf(begun.attempt.addressHash) }
  if (!isRight || account === undefined || stored === undefined) {
    // A name that nobody has is not written down: it may be a password that slipped into the wrong field.
    await store.write((tx) => noteAccess(tx, { ...event, what: 'sign-in refused' }))
    return failed(WRONG)
  }
  const renewed = isDated(stored, cost) ? await hashPassword(password, cost) : undefined
  return store.write(async (tx) => {
    const now = await accountNamed(tx, name)
    if (now?.passwordHash !== stored || now.disabledAt !== undefined) return failed(WRONG)
    await deleteAttempts(tx, begun.attempt)
    if (renewed !== undefined) await setPasswordHash(tx, now.id, renewed)
    await noteAccess(tx, { ...event, what: 'signed in' })
    return { ok: true, value: await openSession(tx, now, given, at) }
  })
}
