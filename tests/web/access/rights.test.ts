import { describe, expect, test } from 'vitest'
import { RIGHTS, type Right, type Row, rowOf } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { cannedUses, TOKEN } from '../cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'

const routesOf = () =>
  createApp(cannedUses().uses, { demo: false }).routes.filter((route) => route.method !== 'ALL')

test('every registered route is in the table of rights, and the table names no other', () => {
  const registered = [...new Set(routesOf().map(({ method, path }) => `${method} ${path}`))].sort()
  expect(registered.length).toBeGreaterThan(60)
  expect(RIGHTS.map(({ method, path }) => `${method} ${path}`).sort()).toEqual(registered)
})

test('what everybody may open is this and nothing more', () => {
  const open = RIGHTS.filter(({ may }) => may === 'public').map(({ method, path }) => `${method} ${path}`)
  // The description of the API tells of routes and nothing of the shop; a case label tells of its machine alone.
  expect(open.sort()).toEqual([
    'GET /api/v1/openapi.json',
    'GET /assets/app.css',
    'GET /assets/app.js',
    'GET /assets/icon.svg',
    'GET /favicon.ico',
    'GET /l/:code',
    'GET /l/:code/sheet.pdf',
    'GET /sign-in',
    // A mail program ends the offers by it, and knows nothing but the secret in its path (RFC 8058, 3.1).
    'GET /u/:token',
    'GET /welcome',
    // An offer's own page: whoever has the mail; only the POST says something.
    'GET /y/:token',
    'POST /sign-in',
    'POST /u/:token',
    'POST /welcome',
    'POST /y/:token',
  ])
  for (const { may, path } of RIGHTS) expect(may === 'owner link', path).toBe(path.startsWith('/o/'))
})

test('imports, settings, accounts and keys are the owner’s', () => {
  for (const { path, may } of RIGHTS)
    if (/^\/(?:import|settings)(?:\/|$)/.test(path)) expect(['owner', 'accounts'], path).toContain(may)
})

// Everybody who can ask, with what their browser or program sends; what they may is written here once more, by hand.
const STAFF: readonly Right[] = ['public', 'owner link', 'staff', 'own account']
const ASKERS = {
  stranger: { headers: {}, may: ['public', 'owner link'], scopes: [] },
  'a made-up cookie': { headers: { cookie: 'stillfits=guessed' }, may: ['public', 'owner link'], scopes: [] },
  'a made-up key': {
    headers: { authorization: 'Bearer guessed' },
    may: ['public', 'owner link'],
    scopes: [],
  },
  'an owner’s link as a cookie': {
    headers: { cookie: `stillfits=${TOKEN}` },
    may: ['public', 'owner link'],
    scopes: [],
  },
  staff: { headers: { cookie: 'stillfits=staffs' }, may: STAFF, scopes: [] },
  owner: { headers: { cookie: 'stillfits=owners' }, may: [...STAFF, 'owner', 'accounts'], scopes: [] },
  'key to read': {
    headers: { authorization: 'Bearer reads' },
    may: ['public', 'owner link'],
    scopes: ['read'],
  },
  'key to write': {
    headers: { authorization: 'Bearer writes' },
    may: ['public', 'owner link'],
    scopes: ['read', 'write'],
  },
  'key to read, people too': {
    headers: { authorization: 'Bearer knows' },
    may: ['public', 'owner link'],
    scopes: ['read', 'people'],
  },
} as const satisfies Record<
  string,
  { headers: Record<string, string>; may: readonly Right[]; scopes: readonly string[] }
>

const fill = (path: string): string =>
  path
    .replace(':token', TOKEN)
    .replace(':tag', 'T-0007')
    .replace('*', 'nowhere')
    .replaceAll(/:[a-z]+/g, '1')

/** An app and what was asked of its uses; making one costs more than an answer of it. */
function appWithCalls() {
  const { uses, calls } = cannedUses({
    uses: {
      sessionOf: async (token) => {
        if (token === 'staffs') return { accountId: '2', name: 'Bo', role: 'staff' }
        return token === 'owners' ? { accountId: '1', name: 'Ada', role: 'owner' } : undefined
      },
      tokenOf: async (token) => {
        if (token === 'reads') return { name: 'reader', scopes: ['read'] }
        if (token === 'knows') return { name: 'knower', scopes: ['read', 'people'] }
        return token === 'writes' ? { name: 'writer', scopes: ['read', 'write'] } : undefined
      },
    },
  })
  return { app: createApp(uses, { demo: false }), calls }
}

async function ask(
  { app, calls }: ReturnType<typeof appWithCalls>,
  row: Row,
  headers: Record<string, string>,
) {
  calls.length = 0
  const isApi = row.path.startsWith('/api/')
  const sent =
    row.method === 'GET' ? {} : isApi ? { body: '{}' } : { body: new URLSearchParams({ nothing: 'x' }) }
  const type: Record<string, string> =
    isApi && row.method !== 'GET' ? { 'content-type': 'application/json' } : {}
  const answer = await app.request(`${ORIGIN}${fill(row.path)}`, {
    ...{ method: row.method, headers: { ...FROM_OUR_PAGE, ...type, ...headers } },
    ...sent,
  })
  return { answer, calls, text: await answer.text() }
}

const isRefused = ({ status, headers }: Response): boolean =>
  status === 401 ||
  status === 403 ||
  (status === 303 && /^\/sign-in\?to=|^\/sign-in$/.test(headers.get('location') ?? ''))

describe.each(Object.entries(ASKERS))('%s', (name, { headers, may, scopes }) => {
  const theirs = appWithCalls()
  test.each(RIGHTS.map((row) => [`${row.method} ${row.path}`, row] as const))('%s', async (_, row) => {
    const { answer, calls, text } = await ask(theirs, row, headers)
    const allowed =
      (may as readonly Right[]).includes(row.may) ||
      (row.scope !== undefined && (scopes as readonly string[]).includes(row.scope))
    // Signing out leads to the sign-in, for those who may.
    const leads = row.path.startsWith('/sign-out') && allowed
    expect(isRefused(answer) && !leads, `${name}: ${answer.status}`).toBe(!allowed)
    if (allowed) return
    expect(calls).toEqual([])
    // Nothing of the shop on what they see: no person, no part, no tag.
    expect(text).not.toMatch(/Imre|T-0007(?!")|Flint|Pebble/)
    if (row.path.startsWith('/api/'))
      expect(JSON.parse(text)).toHaveProperty('problems.0.field', 'Authorization')
  })
})

test('where there is no route, a stranger is told the same as everywhere; whoever is in is told so', async () => {
  const asked = { method: 'GET', path: '/nowhere', may: 'staff' } as const
  const stranger = await ask(appWithCalls(), asked, {})
  expect(stranger.answer.status).toBe(303)
  expect(stranger.answer.headers.get('location')).toBe('/sign-in?to=%2Fnowhere')
  expect((await ask(appWithCalls(), asked, ASKERS.staff.headers)).answer.status).toBe(404)
})

test('a route without rights is refused to everybody, the owner too', async () => {
  const { uses } = cannedUses()
  const app = createApp(uses, { demo: false, everybodyIs: { kind: 'owner', name: 'Ada', accountId: '1' } })
  app.get('/forgotten', (c) => c.text('secret of the shop'))
  expect(rowOf('GET', '/forgotten')).toBeUndefined()
  const answer = await app.request(`${ORIGIN}/forgotten`)
  expect(answer.status).toBe(403)
  expect(await answer.text()).not.toContain('secret of the shop')
})

test('closed is the default: without a word on who asks, nothing of the shop is shown', async () => {
  const { uses } = cannedUses()
  for (const path of ['/', '/machines', '/settings', '/import', '/rules']) {
    const answer = await createApp(uses, { demo: false }).request(`${ORIGIN}${path}`)
    expect(answer.status, path).toBe(303)
    expect(await answer.text()).toBe('')
  }
})
