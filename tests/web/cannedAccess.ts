import { failed, ok } from '../../src/problem.ts'
import type { AccessUses } from '../../src/web/access/accessUses.ts'
import { NOW } from './cannedShop.ts'

const wrong = failed({
  code: 'not allowed',
  field: 'password',
  next: 'This name and password do not belong together. Check both, or ask for a new code.',
})

const code = { id: '2', name: 'Bo', code: '0abcd-1efgh-2jkmn-3pqrs', expiresAt: '2026-06-15T09:00:00.000Z' }

/** Accounts of a shop that never changes: an owner, one of the staff, one closed; two keys. Nobody can sign in. */
export const cannedAccess: AccessUses = {
  isNewShop: async () => false,
  sessionOf: async () => undefined,
  tokenOf: async () => undefined,
  signIn: async () => wrong,
  welcome: async () =>
    failed({ code: 'not allowed', field: 'code', next: 'This code does not hold, or does no more.' }),
  signOut: async () => {},
  signOutEverywhere: async () => {},
  changePassword: async () =>
    failed({ code: 'not allowed', field: 'current', next: 'This is not your present password.' }),
  accounts: async () => [
    { id: '1', name: 'Ada', role: 'owner', createdAt: NOW, hasPassword: true, browsers: 2 },
    { id: '2', name: 'Bo', role: 'staff', createdAt: NOW, hasPassword: false, browsers: 0 },
    { id: '3', name: 'Cy', role: 'staff', createdAt: NOW, hasPassword: true, browsers: 0, disabledAt: NOW },
  ],
  addAccount: async () => ok(code),
  newCodeFor: async () => ok(code),
  disableAccount: async (id) => ok({ id, name: 'Bo' }),
  enableAccount: async (id) => ok({ id, name: 'Cy' }),
  signOutAccount: async (id) => ok({ id, name: 'Bo' }),
  tokens: async () => [
    { id: '2', name: 'price list', scope: 'read', people: false, createdAt: NOW, usedAt: NOW },
    { id: '1', name: 'old till', scope: 'write', people: true, createdAt: NOW, revokedAt: NOW },
  ],
  makeToken: async ({ name }) => ok({ name, token: `sft_${'A'.repeat(43)}` }),
  takeTokenBack: async () => ok({ name: 'price list' }),
  isProven: async () => true,
  prove: async () => failed({ code: 'not allowed', field: 'proof', next: 'This is not your password.' }),
  accessLog: async () => ({
    events: [
      { id: 7, what: 'key made', at: NOW, by: 'Ada', about: 'price list' },
      { id: 6, what: 'password typed', at: NOW, by: 'Ada', place: '3f9a1c' },
      { id: 5, what: 'table exported', at: NOW, by: 'key price list', about: 'shelf' },
      { id: 4, what: 'sign-in refused', at: NOW, place: '77e0b2' },
      { id: 3, what: 'owner link made', at: NOW, by: 'Bo', about: 'T-0007' },
      { id: 2, what: 'code used', at: NOW, by: 'Ada', about: 'Ada', place: '3f9a1c' },
    ],
    olderThan: 2,
  }),
  noteAccess: async () => {},
}
