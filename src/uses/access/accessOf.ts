import type { Store } from '../../store/open.ts'
import { type AccessEvent, noteOne, viewAccessLog } from './accessLog.ts'
import {
  addAccount,
  disableAccount,
  enableAccount,
  newCodeFor,
  signOutAccount,
  viewAccounts,
} from './accounts.ts'
import { makeToken, takeTokenBack, tokenOf, viewTokens } from './apiTokens.ts'
import { changePassword, type PasswordChange } from './changePassword.ts'
import type { FirstCode } from './firstCode.ts'
import { sessionOf, signOut, signOutEverywhere } from './openSession.ts'
import { COST, type Cost } from './passwordHash.ts'
import { isProven, type Proof, prove } from './proof.ts'
import { type SignIn, signIn } from './signIn.ts'
import { isNewShop, type Welcome, welcome } from './welcome.ts'

export type AccessOptions = {
  readonly now: () => string
  /** Only while the shop has no account. */
  readonly firstCode?: FirstCode | undefined
  /** What a password's hash costs; less than the usual only where no password is worth anything. */
  readonly cost?: Cost | undefined
}

/** Everything about accounts, sessions and keys, joined to a store and a clock. */
export const accessOf = (store: Store, { now, firstCode, cost = COST }: AccessOptions) => ({
  isNewShop: () => isNewShop(store),
  sessionOf: (token: string) => sessionOf(store, token, now()),
  tokenOf: (token: string) => tokenOf(store, token, now()),
  signIn: (given: SignIn) => signIn(store, given, now(), cost),
  welcome: (given: Welcome) => welcome(store, firstCode, given, now(), cost),
  signOut: (token: string) => signOut(store, token),
  signOutEverywhere: (accountId: string) => signOutEverywhere(store, accountId, now()),
  changePassword: (given: PasswordChange) => changePassword(store, given, now(), cost),
  accounts: () => viewAccounts(store, now()),
  addAccount: (account: Parameters<typeof addAccount>[1], by: string) =>
    addAccount(store, account, now(), by),
  newCodeFor: (accountId: string, by: string) => newCodeFor(store, accountId, now(), by),
  disableAccount: (accountId: string, by: string) => disableAccount(store, accountId, now(), by),
  enableAccount: (accountId: string, by: string) => enableAccount(store, accountId, now(), by),
  signOutAccount: (accountId: string, by: string) => signOutAccount(store, accountId, now(), by),
  tokens: () => viewTokens(store),
  makeToken: (given: Parameters<typeof makeToken>[1]) => makeToken(store, given, now()),
  takeTokenBack: (id: string, by: string) => takeTokenBack(store, id, now(), by),
  isProven: (token: string) => isProven(store, token, now()),
  prove: (given: Proof) => prove(store, given, now(), cost),
  accessLog: (before: string | undefined) => viewAccessLog(store, before),
  noteAccess: (event: Omit<AccessEvent, 'at'>) => noteOne(store, { ...event, at: now() }),
})
