import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import {
  type Account,
  accountNamed,
  countOwners,
  deleteCodes,
  deleteOldCodes,
  insertAccount,
  insertCode,
  listAccounts,
  loadAccount,
  type Role,
  setDisabled,
} from '../../store/accounts.ts'
import type { Db, Store } from '../../store/open.ts'
import { deleteSessions, listSessions } from '../../store/sessions.ts'
import { nameKeyOf, nameProblem, tidyName } from './accountName.ts'
import { codeHashOf, newCode } from './secrets.ts'

const HOUR_MS = 3_600_000
/** How long a code holds that somebody is given. */
export const CODE_HOURS = 48

/** An account as the owner sees it. */
export type AccountLine = {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly createdAt: string
  readonly hasPassword: boolean
  readonly disabledAt?: string | undefined
  /** Browsers that are signed in to it. */
  readonly browsers: number
}

/** A code that was made: given out this once. */
export type CodeGiven = {
  readonly id: string
  readonly name: string
  readonly code: string
  readonly expiresAt: string
}

export async function viewAccounts(store: Store, at: string): Promise<AccountLine[]> {
  const [accounts, sessions] = await Promise.all([listAccounts(store.db), listSessions(store.db)])
  return accounts.map(({ id, name, role, createdAt, passwordHash, disabledAt }) => ({
    ...{ id: String(id), name, role, createdAt, disabledAt },
    hasPassword: passwordHash !== undefined,
    browsers: sessions.filter((s) => s.accountId === id && at < s.expiresAt).length,
  }))
}

/** Adds an account without a password; its code lets somebody choose one. */
export async function addAccount(
  store: Store,
  { name, role }: { readonly name: string; readonly role: Role },
  at: string,
  by: string,
): Promise<Result<CodeGiven>> {
  const problem = nameProblem(name)
  if (problem !== undefined) return failed(problem)
  return store.write(async (tx) => {
    const nameKey = nameKeyOf(name)
    if ((await accountNamed(tx, nameKey)) !== undefined) {
      const next = 'There is an account with this name already. Take another one.'
      return failed({ code: 'duplicate', field: 'name', got: name, next })
    }
    const id = await insertAccount(tx, { name: tidyName(name), nameKey, role, createdAt: at })
    await noteAccess(tx, { at, what: 'account added', by, about: tidyName(name) })
    return ok(await giveCode(tx, { id, name: tidyName(name) }, at, by))
  })
}

/** A new code for an account: its password stays until the code is used. An earlier code ends. */
export async function newCodeFor(
  store: Store,
  accountId: string,
  at: string,
  by: string,
): Promise<Result<CodeGiven>> {
  return onAccount(store, accountId, async (tx, account) => {
    if (account.disabledAt !== undefined) return failed(CLOSED)
    return ok(await giveCode(tx, account, at, by))
  })
}

async function giveCode(
  tx: Db,
  { id, name }: Pick<Account, 'id' | 'name'>,
  at: string,
  by: string,
): Promise<CodeGiven> {
  await deleteOldCodes(tx, at)
  const code = newCode()
  const expiresAt = new Date(Date.parse(at) + CODE_HOURS * HOUR_MS).toISOString()
  await insertCode(tx, { codeHash: codeHashOf(code), accountId: id, createdAt: at, expiresAt })
  await noteAccess(tx, { at, what: 'code made', by, about: name })
  return { id: String(id), name, code, expiresAt }
}

/** Closes an account: whoever is signed in is out at once, its code and its programs' keys end to work. */
export async function disableAccount(
  store: Store,
  accountId: string,
  at: string,
  by: string,
): Promise<Result<Named>> {
  return onAccount(store, accountId, async (tx, account) => {
    if (account.disabledAt !== undefined) return ok(named(account))
    if (account.role === 'owner' && (await countOwners(tx)) < 2) return failed(LAST_OWNER)
    await setDisabled(tx, account.id, at)
    await deleteSessions(tx, account.id)
    await deleteCodes(tx, account.id)
    await noteAccess(tx, { at, what: 'account closed', by, about: account.name })
    return ok(named(account))
  })
}

/** Opens a closed account again; its password is what it was. */
export async function enableAccount(
  store: Store,
  accountId: string,
  at: string,
  by: string,
): Promise<Result<Named>> {
  return onAccount(store, accountId, async (tx, account) => {
    await setDisabled(tx, account.id, undefined)
    await noteAccess(tx, { at, what: 'account opened', by, about: account.name })
    return ok(named(account))
  })
}

/** Signs an account out of every browser. */
export async function signOutAccount(
  store: Store,
  accountId: string,
  at: string,
  by: string,
): Promise<Result<Named>> {
  return onAccount(store, accountId, async (tx, account) => {
    await deleteSessions(tx, account.id)
    await noteAccess(tx, { at, what: 'signed out everywhere', by, about: account.name })
    return ok(named(account))
  })
}

/** The key of an account by its name, as typed. */
export async function findAccount(store: Store, name: string): Promise<Result<Named>> {
  const account = await accountNamed(store.db, nameKeyOf(name))
  return account === undefined ? failed({ ...NO_ACCOUNT, field: 'NAME', got: name }) : ok(named(account))
}

export type Named = { readonly id: string; readonly name: string }
const named = ({ id, name }: Account): Named => ({ id: String(id), name })

const NO_ACCOUNT: Problem = {
  code: 'not found',
  field: 'account',
  next: 'There is no such account. The list of accounts shows them all.',
}
const CLOSED: Problem = {
  code: 'conflict',
  field: 'account',
  next: 'This account is closed. Open it again first, then make a code.',
}
const LAST_OWNER: Problem = {
  code: 'conflict',
  field: 'account',
  next: 'This is the only owner, and somebody has to be. Add another owner first.',
}

const onAccount = <T>(
  store: Store,
  accountId: string,
  work: (tx: Db, account: Account) => Promise<Result<T>>,
): Promise<Result<T>> =>
  store.write(async (tx) => {
    const account = /^\d{1,15}$/.test(accountId) ? await loadAccount(tx, Number(accountId)) : undefined
    return account === undefined ? failed(NO_ACCOUNT) : work(tx, account)
  })
