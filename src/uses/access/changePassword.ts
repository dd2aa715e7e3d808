import { failed } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import { deleteCodes, loadAccount, setPassword } from '../../store/accounts.ts'
import type { Store } from '../../store/open.ts'
import { deleteAttempts, deleteSessions } from '../../store/sessions.ts'
import { placeOf } from './accessLog.ts'
import { beginAttempt, CROWDED } from './attempts.ts'
import { type Opened, openSession } from './openSession.ts'
import { type Cost, hashPassword, isPassword } from './passwordHash.ts'
import { passwordProblem } from './passwordRules.ts'
import type { Tried } from './signIn.ts'
import { namesAround } from './welcome.ts'

export type PasswordChange = {
  readonly accountId: string
  readonly current: string
  readonly password: string
  readonly address: string
}

/** Takes another password for whoever knows the present one. Every other browser is signed out. */
export async function changePassword(
  store: Store,
  given: PasswordChange,
  at: string,
  cost: Cost,
): Promise<Tried<Opened>> {
  const account = await loadAccount(store.db, Number(given.accountId))
  if (account?.passwordHash === undefined)
    return failed({ code: 'not found', field: 'account', next: 'This account is not there any more.' })
  const by = { name: account.nameKey, address: given.address, accountId: account.id }
  const begun = await beginAttempt(store, by, at)
  if (!begun.ok) return { ...begun, problems: begun.problems.map((p) => ({ ...p, field: 'current' })) }
  const isRight = await isPassword(given.current, account.passwordHash, cost)
  if (isRight === undefined) return failed(CROWDED)
  const event = { at, by: account.name, place: placeOf(begun.attempt.addressHash) }
  if (!isRight) {
    await store.write((tx) => noteAccess(tx, { ...event, what: 'password refused' }))
    return failed({ code: 'not allowed', field: 'current', next: 'This is not your present password.' })
  }
  await store.write((tx) => deleteAttempts(tx, begun.attempt))
  const problem = passwordProblem('password', given.password, await namesAround(store.db, account.name))
  if (problem !== undefined) return failed(problem)
  const passwordHash = await hashPassword(given.password, cost)
  if (passwordHash === undefined) return failed(CROWDED)
  return store.write(async (tx) => {
    await setPassword(tx, account.id, passwordHash, at)
    await deleteSessions(tx, account.id)
    // A code that lies about would open the account again.
    await deleteCodes(tx, account.id)
    await noteAccess(tx, { ...event, what: 'password changed' })
    return { ok: true, value: await openSession(tx, account, given, at) }
  })
}
