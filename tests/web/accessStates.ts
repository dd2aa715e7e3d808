import { failed } from '../../src/problem.ts'
import { asStaff } from './signedIn.ts'
import type { PageState } from './states.ts'

const tooOften = {
  ...failed({
    code: 'too many',
    field: 'password',
    next: 'That was tried too often. Wait 40 seconds, then try again.',
  }),
  waitSeconds: 40,
}

const signIn = { name: 'Ada', password: 'not this one', to: '/shelf' }
const chosen = { code: 'x', password: 'four mice in a drawer', again: 'four mice in a drawer' }

/** A browser in which the password was typed long ago. */
const longSignedIn = {
  ...{ as: 'stranger', cookie: 'stillfits=adas' },
  uses: {
    sessionOf: async () => ({ accountId: '1', name: 'Ada', role: 'owner' }),
    isProven: async () => false,
  },
} satisfies Partial<PageState>

/** Signing in, accounts and keys, in every state. */
export const ACCESS_STATES: readonly PageState[] = [
  { name: 'sign-in', path: '/sign-in?to=%2Fshelf', as: 'stranger' },
  { name: 'sign-in-wrong', path: '/sign-in', status: 422, as: 'stranger', form: signIn },
  {
    ...{ name: 'sign-in-wait', path: '/sign-in', status: 429, as: 'stranger', form: signIn },
    uses: { signIn: async () => tooOften },
  },
  { name: 'welcome-new', path: '/welcome', as: 'stranger', uses: { isNewShop: async () => true } },
  { name: 'welcome', path: '/welcome', as: 'stranger' },
  { name: 'welcome-wrong', path: '/welcome', status: 422, as: 'stranger', form: chosen },
  {
    ...{ name: 'welcome-not-alike', path: '/welcome', status: 422, as: 'stranger' },
    form: { ...chosen, again: 'something else' },
  },
  { name: 'sign-in-first', path: '/machines/new', status: 401, as: 'stranger', form: { tag: 'T-0009' } },
  { name: 'account', path: '/account' },
  { name: 'account-saved', path: '/account?saved' },
  { name: 'account-staff', path: '/account', as: asStaff.everybodyIs },
  { name: 'account-wrong', path: '/account/password', status: 422, form: { ...chosen, current: 'x' } },
  { name: 'accounts', path: '/settings/accounts' },
  { name: 'accounts-code', path: '/settings/accounts', form: { name: 'Bo', role: 'staff' } },
  { name: 'accounts-wrong', path: '/settings/accounts', status: 422, form: { name: 'Bo' } },
  { name: 'tokens', path: '/settings/tokens' },
  { name: 'tokens-none', path: '/settings/tokens', uses: { tokens: async () => [] } },
  { name: 'tokens-made', path: '/settings/tokens', form: { name: 'price list', scope: 'read' } },
  {
    ...{ name: 'tokens-proof', path: '/settings/tokens', status: 401, ...longSignedIn },
    form: { name: 'price list', scope: 'read' },
  },
  {
    ...{ name: 'tokens-proof-wrong', path: '/settings/tokens', status: 422, ...longSignedIn },
    form: { name: 'price list', scope: 'read', proof: 'not this one' },
  },
  { name: 'access-log', path: '/settings/access' },
  { name: 'access-log-none', path: '/settings/access', uses: { accessLog: async () => ({ events: [] }) } },
  { name: 'staff-questions', path: '/', as: asStaff.everybodyIs },
  { name: 'staff-settings', path: '/settings', status: 403, as: asStaff.everybodyIs },
  { name: 'demo-accounts', path: '/settings/accounts', status: 403, demo: true },
]
