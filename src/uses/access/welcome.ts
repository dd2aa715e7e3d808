import { failed, type Problem } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import {
  type Account,
  accountOfCode,
  deleteCodes,
  hasAccounts,
  insertAccount,
  loadAccount,
  setPassword,
} from '../../store/accounts.ts'
import type { Db, Store } from '../../store/open.ts'
import { deleteAttempts, deleteSessions } from '../../store/sessions.ts'
import { loadShop } from '../../store/shop.ts'
import { placeOf } from './accessLog.ts'
import { nameKeyOf, nameProblem, tidyName } from './accountName.ts'
import { beginAttempt, CROWDED } from './attempts.ts'
import type { FirstCode } from './firstCode.ts'
import { type Opened, openSession } from './openSession.ts'
import { type Cost, hashPassword } from './passwordHash.ts'
import { passwordProblem } from './passwordRules.ts'
import { codeHashOf } from './secrets.ts'
import type { Tried } from './signIn.ts'

/** What stands around an account and is guessed first. */
export const namesAround = async (db: Db, name: string): Promise<string[]> => {
  const shop = await loadShop(db)
  return [name, ...(shop === undefined ? [] : [shop.name, shop.builder, shop.email])].filter((n) => n !== '')
}

/** Whether nobody has an account yet. */
export const isNewShop = async (store: Store): Promise<boolean> => !(await hasAccounts(store.db))

export type Welcome = {
  readonly code: string
  /** Only the first account is named here; later ones are named by whoever adds them. */
  readonly name: string
  readonly password: string
  readonly address: string
  readonly earlier?: string | undefined
}

const NO_CODE: Problem = {
  code: 'not allowed',
  field: 'code',
  next: 'This code does not hold, or does no more. Ask whoever gave it to you for a new one.',
}
const NO_FIRST_CODE: Problem = {
  code: 'not allowed',
  field: 'code',
  next: 'This is not the code. It stands where the program was started, and changes with every start.',
}

/**
 * A one-time code becomes a password: the first code makes the owner's account, any other belongs to an account that is
 * there. Whoever was signed in to it is signed out. The code is used up only when all of it is right.
 */
export async function welcome(
  store: Store,
  firstCode: FirstCode | undefined,
  given: Welcome,
  at: string,
  cost: Cost,
): Promise<Tried<Opened>> {
  // Counted by address alone: a code is nobody's in particular, and strangers elsewhere must not use up its tries.
  const by = { name: `one-time code from ${given.address}`, address: given.address }
  const begun = await beginAttempt(store, by, at)
  if (!begun.ok) return { ...begun, problems: begun.problems.map((p) => ({ ...p, field: 'code' })) }
  const isFirst = await isNewShop(store)
  const account = isFirst ? undefined : await accountOfCode(store.db, codeHashOf(given.code), at)
  if (isFirst && firstCode?.isRight(given.code) !== true) return failed(NO_FIRST_CODE)
  if (!isFirst && (account === undefined || account.disabledAt !== undefined)) return failed(NO_CODE)
  // The code was right, so this was no guess, whatever else has to be put right.
  await store.write((tx) => deleteAttempts(tx, begun.attempt))
  const name = account?.name ?? tidyName(given.name)
  const problems = [
    account === undefined ? nameProblem(given.name) : undefined,
    passwordProblem('password', given.password, await namesAround(store.db, name)),
  ].filter((p) => p !== undefined)
  if (problems.length > 0) return { ok: false, problems }
  const passwordHash = await hashPassword(given.password, cost)
  if (passwordHash === undefined) return failed(CROWDED)
  return store.write(async (tx) => {
    const made = isFirst
      ? await firstAccount(tx, name, at)
      : await accountOfCode(tx, codeHashOf(given.code), at)
    if (made === undefined || made.disabledAt !== undefined) return failed(isFirst ? NO_FIRST_CODE : NO_CODE)
    await setPassword(tx, made.id, passwordHash, at)
    await deleteCodes(tx, made.id)
    await deleteSessions(tx, made.id)
    if (isFirst) firstCode?.close()
    const place = placeOf(begun.attempt.addressHash)
    await noteAccess(tx, { at, what: 'code used', by: made.name, about: made.name, place })
    return { ok: true, value: await openSession(tx, made, given, at) }
  })
}

/** The owner's account, unless somebody was quicker. */
async function firstAccount(tx: Db, name: string, at: string): Promise<Account | undefined> {
  if (await hasAccounts(tx)) return undefined
  const id = await insertAccount(tx, { name, nameKey: nameKeyOf(name), role: 'owner', createdAt: at })
  return loadAccount(tx, id)
}
