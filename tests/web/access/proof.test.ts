import { describe, expect, test } from 'vitest'
import { usesOf } from '../../../src/usesOf.ts'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { ownedShop, PASSWORD } from '../../uses/access/accessShop.ts'
import { cannedUses } from '../cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { formsIn } from './hostile.ts'

/** The pages of a real shop, with a browser in which the owner signed in and a while passed. */
async function longSignedIn(seconds: number) {
  const { store, access, clock, owner } = await ownedShop()
  clock.pass(seconds)
  const app = createApp({ ...usesOf(store), ...access, now: clock.now }, { demo: false })
  const send = async (path: string, fields?: Record<string, string>) => {
    const headers = { ...FROM_OUR_PAGE, cookie: `stillfits=${owner.token}` }
    const sent = fields === undefined ? {} : { method: 'POST', body: new URLSearchParams(fields) }
    const answer = await app.request(`${ORIGIN}${path}`, { ...sent, headers })
    return { status: answer.status, text: await answer.text(), headers: answer.headers }
  }
  return { send, access, clock }
}

/** The form of the page; the one in its head finds things. */
const inPage = (text: string) => formsIn(text).find(({ action }) => action !== '/find')

describe('the password once more', () => {
  test('is not asked for right after signing in, and is after 15 minutes', async () => {
    const soon = await longSignedIn(60)
    expect((await soon.send('/settings/accounts', { name: 'Bo', role: 'staff' })).status).toBe(200)
    expect(await soon.access.accounts()).toHaveLength(2)
    const later = await longSignedIn(16 * 60)
    const asked = await later.send('/settings/accounts', { name: 'Bo', role: 'staff' })
    expect(asked.status).toBe(401)
    expect(await later.access.accounts()).toHaveLength(1)
  })

  test('what was sent waits in the page, and is done when the password is right', async () => {
    const { send, access } = await longSignedIn(3600)
    const asked = await send('/settings/tokens', { name: 'price "list"', scope: 'read' })
    const form = inPage(asked.text)
    expect(form?.action).toBe('/settings/tokens')
    expect([...(form?.fields ?? [])]).toEqual([
      ['name', 'price "list"'],
      ['scope', 'read'],
      ['proof', ''],
    ])
    const wrong = await send('/settings/tokens', { name: 'price "list"', scope: 'read', proof: 'wrong-one' })
    expect(wrong.status).toBe(422)
    expect(wrong.text).not.toContain('wrong-one')
    expect(inPage(wrong.text)?.fields.get('name')).toBe('price "list"')
    expect(await access.tokens()).toEqual([])
    const right = await send('/settings/tokens', { name: 'price "list"', scope: 'read', proof: PASSWORD })
    expect(right.status).toBe(200)
    expect(right.text).not.toContain(PASSWORD)
    expect((await access.tokens()).map(({ name }) => name)).toEqual(['price "list"'])
    // And not again for the next one.
    expect((await send('/settings/tokens/1/revoke', {})).status).toBe(303)
  })

  test('wrong ones have to wait (RFC 6585, 4)', async () => {
    const { send } = await longSignedIn(3600)
    const tries = []
    for (let n = 0; n < 4; n++) tries.push(await send('/settings/tokens', { name: 'x', proof: `wrong ${n}` }))
    expect(tries.map(({ status }) => status)).toEqual([422, 422, 422, 429])
    expect(tries.at(-1)?.headers.get('retry-after')).toBe('5')
  })

  test('every route that changes accounts or keys asks for it, and nothing is done before', async () => {
    const weighty = RIGHTS.filter(({ method, may }) => may === 'accounts' && method !== 'GET')
    expect(weighty.map(({ path }) => path)).toEqual([
      '/settings/accounts',
      '/settings/accounts/:id/code',
      '/settings/accounts/:id/disable',
      '/settings/accounts/:id/enable',
      '/settings/accounts/:id/sign-out',
      '/settings/tokens',
      '/settings/tokens/:id/revoke',
    ])
    const done: string[] = []
    const never = (name: string) => async () => {
      done.push(name)
      throw new Error(name)
    }
    const { uses } = cannedUses({
      uses: {
        sessionOf: async () => ({ accountId: '1', name: 'Ada', role: 'owner' }),
        isProven: async () => false,
        addAccount: never('add'),
        newCodeFor: never('code'),
        disableAccount: never('disable'),
        enableAccount: never('enable'),
        signOutAccount: never('sign out'),
        makeToken: never('make'),
        takeTokenBack: never('take back'),
      },
    })
    const app = createApp(uses, { demo: false })
    for (const { path } of weighty) {
      const answer = await app.request(`${ORIGIN}${path.replace(':id', '1')}`, {
        ...{ method: 'POST', body: new URLSearchParams({ name: 'x', role: 'staff', scope: 'read' }) },
        headers: { ...FROM_OUR_PAGE, cookie: 'stillfits=adas' },
      })
      expect(answer.status, path).toBe(401)
    }
    expect(done).toEqual([])
  })
})

test('what was exported stands in the log, with who took it', async () => {
  const { send, access } = await longSignedIn(60)
  expect((await send('/export/customers.csv')).status).toBe(200)
  expect((await send('/export/nowhere.csv')).status).toBe(404)
  const { events } = await access.accessLog(undefined)
  expect(events.filter(({ what }) => what === 'table exported')).toMatchObject([
    { by: 'Ada', about: 'customers' },
  ])
  const page = await send('/settings/access')
  expect(page.text).toContain('Table exported')
})
