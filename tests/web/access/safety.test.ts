import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { getRequestListener } from '@hono/node-server'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { failed, ok } from '../../../src/problem.ts'
import { createApp } from '../../../src/web/app.ts'
import type { WebOptions } from '../../../src/web/frame.ts'
import { ANSWER_MS } from '../../../src/web/guard.ts'
import type { WebUses } from '../../../src/web/webUses.ts'
import { cannedUses, TOKEN } from '../cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { asOwner } from '../signedIn.ts'

const appWith = (uses: Partial<WebUses> = {}, options: Partial<WebOptions> = {}) =>
  createApp(cannedUses({ uses }).uses, { demo: false, ...options })

const opened = { token: 'a-new-token', signedIn: { accountId: '1', name: 'Ada', role: 'owner' } } as const

/** The pages behind a real connection from 127.0.0.1, as behind a proxy on this computer. */
const servers: ReturnType<typeof createServer>[] = []
afterEach(() => {
  vi.useRealTimers()
  for (const server of servers.splice(0)) server.close()
})
async function served(app: ReturnType<typeof appWith>): Promise<string> {
  const server = createServer(getRequestListener(app.fetch))
  servers.push(server)
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`
}

// OWASP ASVS 4.0, V14.4; OWASP Secure Headers Project.
describe('headers', () => {
  test.each(['/', '/sign-in', '/nowhere', '/assets/app.css', `/o/${TOKEN}`])('%s', async (path) => {
    const { headers } = await appWith({}, asOwner).request(`${ORIGIN}${path}`)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('referrer-policy')).toBe('same-origin')
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin')
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
    expect(headers.get('content-security-policy')).toContain("default-src 'none'")
    for (const feature of ['camera', 'microphone', 'geolocation', 'payment', 'usb'])
      expect(headers.get('permissions-policy')).toContain(`${feature}=()`)
    expect(headers.get('strict-transport-security')).toBeNull()
    if (!path.startsWith('/assets/')) expect(headers.get('cache-control')).toBe('no-store')
  })
})

describe('behind TLS', () => {
  const tls = { 'x-forwarded-proto': 'https', 'x-forwarded-for': '203.0.113.7' }
  const form = (more: Record<string, string> = {}) => ({
    method: 'POST',
    redirect: 'manual' as const,
    body: new URLSearchParams({ name: 'Ada', password: 'x' }),
    headers: more,
  })

  test('a proxy that the settings name is believed: HSTS, a Secure cookie of this host, its own origin', async () => {
    const app = appWith({ signIn: async () => ok(opened) }, { proxies: ['127.0.0.1'] })
    const at = await served(app)
    const looked = await fetch(`${at}/sign-in`, { headers: tls })
    // RFC 6797, 6.1.1.
    expect(looked.headers.get('strict-transport-security')).toMatch(/^max-age=31536000$/)
    const host = new URL(at).host
    const signed = await fetch(`${at}/sign-in`, form({ ...tls, origin: `https://${host}` }))
    expect(signed.status).toBe(303)
    // RFC 6265bis, 4.1.3.2: __Host- asks for Secure, Path=/ and no Domain. OWASP ASVS 4.0, 3.4.1 to 3.4.5.
    expect(signed.headers.get('set-cookie')).toMatch(
      /^__Host-stillfits=a-new-token; Max-Age=7776000; Path=\/; HttpOnly; Secure; SameSite=Lax$/,
    )
    expect((await fetch(`${at}/sign-in`, form({ ...tls, origin: `http://${host}` }))).status).toBe(403)
  })

  test('nobody else is: neither about TLS nor about the address', async () => {
    const seen: string[] = []
    const uses: Partial<WebUses> = {
      signIn: async ({ address }) => {
        seen.push(address)
        return ok(opened)
      },
    }
    const open = await served(appWith(uses))
    const signed = await fetch(`${open}/sign-in`, form({ ...tls, origin: open }))
    expect(signed.headers.get('set-cookie')).toBe(
      'stillfits=a-new-token; Max-Age=7776000; Path=/; HttpOnly; SameSite=Lax',
    )
    expect(signed.headers.get('strict-transport-security')).toBeNull()
    const proxied = await served(appWith(uses, { proxies: ['127.0.0.1'] }))
    const forged = {
      ...tls,
      'x-forwarded-for': '198.51.100.1, 203.0.113.7',
      origin: proxied.replace('http', 'https'),
    }
    await fetch(`${proxied}/sign-in`, form(forged))
    // The last hop is what the proxy itself saw; all before it is what the client claims.
    expect(seen).toEqual(['127.0.0.1', '203.0.113.7'])
  })

  test('one network of IPv6 counts as one address (RFC 6177)', async () => {
    const seen: string[] = []
    const at = await served(
      appWith(
        {
          signIn: async ({ address }) => {
            seen.push(address)
            return ok(opened)
          },
        },
        { proxies: ['127.0.0.1'] },
      ),
    )
    for (const address of [
      '2001:db8:1:2::7',
      '2001:DB8:1:2:ffff::1',
      '2001:db8:1:3::7',
      '::ffff:203.0.113.7',
    ])
      await fetch(`${at}/sign-in`, form({ 'x-forwarded-for': address, origin: at }))
    expect(seen).toEqual(['2001:db8:1:2', '2001:db8:1:2', '2001:db8:1:3', '203.0.113.7'])
  })
})

describe('signing in by the page', () => {
  const post = (path: string, fields: Record<string, string>, uses: Partial<WebUses> = {}) =>
    appWith(uses).request(`${ORIGIN}${path}`, {
      method: 'POST',
      body: new URLSearchParams(fields),
      headers: FROM_OUR_PAGE,
    })

  // OWASP ASVS 4.0, 5.1.5. What a browser takes for another site: URL Standard, 4.4.
  test.each([
    ['/shelf?x=1', '/shelf?x=1'],
    ['', '/'],
    ['//elsewhere.example', '/'],
    ['/\\elsewhere.example', '/'],
    ['https://elsewhere.example', '/'],
    ['javascript:alert(1)', '/'],
    ['/\t/elsewhere.example', '/'],
  ])('leads from %j to %s and never elsewhere', async (to, location) => {
    const answer = await post(
      '/sign-in',
      { name: 'Ada', password: 'x', to },
      { signIn: async () => ok(opened) },
    )
    expect(answer.headers.get('location')).toBe(location)
    const looked = await appWith({}, asOwner).request(`${ORIGIN}/sign-in?to=${encodeURIComponent(to)}`)
    expect(looked.headers.get('location')).toBe(location)
  })

  test('what has to wait is 429 and says how long (RFC 6585, 4; RFC 9110, 10.2.3)', async () => {
    const wait = {
      ...failed({ code: 'too many', field: 'password', next: 'Wait 40 seconds.' }),
      waitSeconds: 40,
    }
    const answer = await post('/sign-in', { name: 'Ada', password: 'x' }, { signIn: async () => wait })
    expect(answer.status).toBe(429)
    expect(answer.headers.get('retry-after')).toBe('40')
    expect(answer.headers.get('set-cookie')).toBeNull()
  })

  test('a password, a code or a key is never written into a page again', async () => {
    const secret = 'five-otters-in-a-boat'
    const fault = async () => {
      throw new Error('broken')
    }
    const answers = [
      await post('/sign-in', { name: 'Ada', password: secret }),
      await post('/sign-in', { name: 'Ada', password: secret }, { signIn: fault }),
      await post('/welcome', { code: secret, name: 'Ada', password: secret, again: `${secret}x` }),
      await post('/welcome', { code: secret, password: secret, again: secret }, { welcome: fault }),
      await post('/account/password', { current: secret, password: secret, again: secret }),
    ]
    for (const answer of answers) expect(await answer.text()).not.toContain(secret)
    expect(answers.map((a) => a.status)).toEqual([422, 500, 422, 500, 401])
  })

  test('a form that arrives after the session ended is kept, and nothing is done', async () => {
    const { uses, calls } = cannedUses()
    const body = new URLSearchParams({ words: 'a long question', machineTag: 'T-0007' }).toString()
    const answer = await createApp(uses, { demo: false }).request(`${ORIGIN}/questions/new`, {
      ...{ method: 'POST', body },
      headers: {
        ...FROM_OUR_PAGE,
        'content-type': 'application/x-www-form-urlencoded',
        'content-length': String(body.length),
      },
    })
    expect(answer.status).toBe(401)
    expect(await answer.text()).toContain('value="a long question"')
    expect(calls).toEqual([])
  })
})

// Fetch Metadata (W3C) and the Origin header (Fetch Standard, 3.2): a browser sends cookies with another site's request.
describe('requests that another site may have sent', () => {
  const send = async (headers: Record<string, string>, body = 'words=x') => {
    const { uses, calls } = cannedUses({
      uses: {
        sessionOf: async () => opened.signedIn,
        tokenOf: async () => ({ name: 'till', scopes: ['read', 'write'] }),
      },
    })
    const answer = await createApp(uses, { demo: false }).request(`${ORIGIN}/questions/Q-0007/message`, {
      ...{ method: 'POST', body },
      headers: { cookie: 'stillfits=x', ...headers },
    })
    return { status: answer.status, calls }
  }
  const form = { 'content-type': 'application/x-www-form-urlencoded' }
  test.each([
    [{ ...form, origin: 'https://elsewhere.example' }],
    [{ ...form, origin: 'null' }],
    [{ ...form, 'sec-fetch-site': 'cross-site' }],
    [{ ...form, 'sec-fetch-site': 'same-site' }],
    [form],
    [{ 'content-type': 'application/json' }],
    [{ 'content-type': 'application/json', origin: 'https://elsewhere.example' }],
  ])('%o is refused', async (headers) => {
    expect(await send(headers as unknown as Record<string, string>)).toEqual({ status: 403, calls: [] })
  })

  // What a form of another site can send by itself (HTML Standard, 4.10.21.6), what a script can (Fetch Standard,
  // 2.2.2: these types without asking first), and what it could if it were let.
  const TYPES = ['application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', 'text/plain']
  test.each([...TYPES, 'text/plain;charset=UTF-8', 'application/json', 'application/octet-stream', ''])(
    'whatever it calls itself: %j',
    async (type) => {
      const named = type === '' ? {} : { 'content-type': type }
      const { host } = new URL(ORIGIN)
      const others = [
        `${ORIGIN}:81`,
        `https://${host}`,
        `http://sub.${host}`,
        `${ORIGIN}.example`,
        'null',
        '',
      ]
      for (const origin of others)
        expect(await send({ ...named, origin }), origin).toEqual({ status: 403, calls: [] })
      expect(await send(named)).toEqual({ status: 403, calls: [] })
    },
  )

  test.each(['POST', 'PUT', 'PATCH', 'DELETE'])('by %s, for programs’ routes too', async (method) => {
    const { uses, calls } = cannedUses({ uses: { sessionOf: async () => opened.signedIn } })
    const headers = {
      cookie: 'stillfits=x',
      origin: 'https://elsewhere.example',
      'content-type': 'text/plain',
    }
    for (const path of ['/api/v1/parts/CRD-1', '/api/v1/machines', '/settings']) {
      const sent = { method, headers, body: '{}' }
      expect((await createApp(uses, { demo: false }).request(`${ORIGIN}${path}`, sent)).status, path).toBe(
        403,
      )
    }
    expect(calls).toEqual([])
  })

  test('from our own page it is taken', async () => {
    expect((await send({ ...form, origin: ORIGIN })).status).toBe(303)
  })
})

describe('time', () => {
  test('an answer that takes too long is broken off and said so', async () => {
    vi.useFakeTimers()
    const asked = appWith({ shelfList: () => new Promise(() => {}) }, asOwner).request(`${ORIGIN}/shelf`)
    await vi.advanceTimersByTimeAsync(ANSWER_MS + 1)
    const answer = await asked
    expect(answer.status).toBe(504)
    expect(await answer.text()).toContain('This takes too long')
  })
})

describe('links of owners', () => {
  const link = (app: ReturnType<typeof appWith>, token: string, init: RequestInit = {}) =>
    app.request(`${ORIGIN}/o/${token}`, init)

  test('nobody tries one after another: 20 that lead nowhere, and the address has to wait', async () => {
    let at = Date.parse('2026-06-12T15:00:00.000Z')
    const app = appWith({ now: () => new Date(at).toISOString() })
    for (let i = 0; i < 20; i++) expect((await link(app, `guess${i}`)).status).toBe(404)
    const waits = await link(app, 'guess21')
    expect(waits.status).toBe(429)
    expect(Number(waits.headers.get('retry-after'))).toBe(600)
    expect((await link(app, 'guess22/photos', { method: 'POST', headers: FROM_OUR_PAGE })).status).toBe(429)
    at += 600_000
    expect((await link(app, 'guess23')).status).toBe(404)
  })

  test('one that holds is served although its address tried 20 dead ones, as often as it is asked for', async () => {
    const app = appWith()
    for (let i = 0; i < 25; i++) await link(app, `guess${i}`)
    expect((await link(app, 'guess')).status).toBe(429)
    for (let i = 0; i < 60; i++) expect((await link(app, TOKEN)).status).toBe(200)
    const body = new URLSearchParams({ request: 'none' })
    const sent = await link(app, `${TOKEN}/limits`, { method: 'POST', body, headers: FROM_OUR_PAGE })
    expect(sent.status).toBe(200)
  })

  test('nothing is read of what is sent with one that leads nowhere', async () => {
    let pulls = 0
    const body = new ReadableStream(
      {
        pull: (stream) => {
          pulls++
          stream.enqueue(new Uint8Array(65_536))
        },
      },
      { highWaterMark: 0 },
    )
    const headers = { ...FROM_OUR_PAGE, 'content-type': 'multipart/form-data; boundary=x' }
    const sent = { method: 'POST', body, headers, duplex: 'half' } as RequestInit
    expect((await link(appWith(), 'guess/photos', sent)).status).toBe(404)
    expect(pulls).toBe(0)
  })

  test('one link sends 20 times an hour', async () => {
    const app = appWith()
    const answers = []
    for (let i = 0; i < 21; i++) {
      const body = new URLSearchParams({})
      const sent = await link(app, `${TOKEN}/questions`, { method: 'POST', body, headers: FROM_OUR_PAGE })
      answers.push(sent.status)
    }
    expect(answers.indexOf(429)).toBe(20)
  })
})
