import { createServer } from 'node:http'
import { type AddressInfo, connect } from 'node:net'
import { getRequestListener } from '@hono/node-server'
import { afterEach, describe, expect, test } from 'vitest'
import { createApp } from '../../../src/web/app.ts'
import { FORM_BYTES } from '../../../src/web/guard.ts'
import { cannedUses, TOKEN } from '../cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { asOwner } from '../signedIn.ts'

/** What was tried against the running program, as one that wants in; each thing that held or was mended stands here. */
const servers: ReturnType<typeof createServer>[] = []
afterEach(() => {
  for (const server of servers.splice(0)) server.close()
})

/** The owner's pages behind a real server; bytes go in and out as they are. */
async function served() {
  const app = createApp(cannedUses().uses, { demo: false, ...asOwner })
  const server = createServer(getRequestListener(app.fetch))
  servers.push(server)
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const { port } = server.address() as AddressInfo
  const host = `127.0.0.1:${port}`
  const send = (head: string, body = '') =>
    new Promise<string>((resolve, reject) => {
      const socket = connect(port, '127.0.0.1')
      let got = ''
      socket.on('data', (chunk) => {
        got += String(chunk)
      })
      socket.once('close', () => resolve(got))
      socket.once('error', reject)
      socket.write(`${head.replaceAll('\n', '\r\n')}\r\n\r\n${body}`)
    })
  return { host, send }
}

describe('paths that lead out', () => {
  // OWASP, Path Traversal: plain, encoded, with a backslash, with NUL.
  test.each([
    '/assets/../../package.json',
    '/assets/%2e%2e/%2e%2e/package.json',
    '/assets/..%2f..%2fpackage.json',
    '/assets/..%5c..%5cpackage.json',
    '/assets/app.css%00.png',
    '/export/..%2fshop.csv',
    '/export/%2e%2e%2f%2e%2e%2fpackage.json',
    '/export/shop%00.csv',
    '/export/__proto__.csv',
    '/export/constructor.csv',
    '/photos/..%2f1',
    '/photos/1%00',
    '/messages/..%2f1/mail.eml',
    '/%0d%0aX-Zz:1',
  ])('%s leads nowhere', async (path) => {
    const { host, send } = await served()
    const answer = await send(`GET ${path} HTTP/1.1\nHost: ${host}\nConnection: close`)
    expect(answer).toMatch(/^HTTP\/1\.1 404 /)
    const [head = '', body = ''] = answer.split('\r\n\r\n')
    expect(head).not.toMatch(/^x-zz/im)
    expect(body).not.toContain('"name": "stillfits"')
  })
})

describe('requests that two readers read differently', () => {
  // RFC 9112, 3.2: a server must answer 400 to more than one Host.
  test('two hosts are refused', async () => {
    const { host, send } = await served()
    for (const path of ['/machines', '/api/v1/shop']) {
      const twice = await send(`GET ${path} HTTP/1.1\nHost: ${host}\nHost: evil.example\nConnection: close`)
      expect(twice, path).toMatch(/^HTTP\/1\.1 400 /)
    }
    expect(await send(`GET /machines HTTP/1.1\nHost: ${host}\nConnection: close`)).toMatch(/^HTTP\/1\.1 200 /)
  })

  // RFC 9112, 6.1: both lengths at once is how requests are smuggled.
  test('two lengths are refused', async () => {
    const { host, send } = await served()
    const head = `POST /sign-out HTTP/1.1\nHost: ${host}\nContent-Length: 6\nTransfer-Encoding: chunked`
    expect(await send(head, '0\r\n\r\nG')).toMatch(/^HTTP\/1\.1 400 /)
  })

  // Before, the connection was said to stay and was cut, so the next request on it was lost.
  test('after a body that is too large the connection ends, and says so', async () => {
    const { host, send } = await served()
    const length = FORM_BYTES + 1
    const head = `POST /settings HTTP/1.1\nHost: ${host}\nOrigin: http://${host}\nContent-Type: application/x-www-form-urlencoded\nContent-Length: ${length}`
    const answer = await send(head, 'a'.repeat(length))
    expect(answer).toMatch(/^HTTP\/1\.1 413 /)
    expect(answer).toMatch(/^connection: close\r$/im)
  })
})

describe('names that every object has', () => {
  test('as what an owner did, they say nothing', async () => {
    const app = createApp(cannedUses().uses, { demo: false })
    const isTold = async (sent: string) =>
      (await (await app.request(`${ORIGIN}/o/${TOKEN}?sent=${sent}`)).text()).includes('class="kept"')
    expect(await isTold('question')).toBe(true)
    for (const name of ['constructor', '__proto__', 'toString']) expect(await isTold(name), name).toBe(false)
  })

  test('as names of fields they change nothing of ours', async () => {
    const { uses } = cannedUses()
    const app = createApp(uses, { demo: false, ...asOwner })
    const names = [
      '__proto__',
      '__proto__[zz]',
      'constructor.prototype.zz',
      'part.__proto__',
      'limit.constructor',
    ]
    for (const path of ['/machines/new', '/questions/new', '/settings', '/settings/tokens']) {
      const body = new URLSearchParams(names.map((name) => [name, 'zz']))
      const answer = await app.request(`${ORIGIN}${path}`, { method: 'POST', body, headers: FROM_OUR_PAGE })
      expect(answer.status, path).toBeLessThan(500)
    }
    const answer = await app.request(`${ORIGIN}/api/v1/fit`, {
      ...{ method: 'POST', body: '{"__proto__":{"zz":1},"machine":{"__proto__":{"zz":1},"parts":[]}}' },
      headers: { ...FROM_OUR_PAGE, 'content-type': 'application/json' },
    })
    expect(answer.status).toBe(422)
    expect(({} as Record<string, unknown>).zz).toBeUndefined()
  })
})

// Before, a stranger's 240 kB held everybody up for half a minute: each value of a field copied all before it.
test('one field that is sent 36,000 times is not copied as often', async () => {
  const app = createApp(cannedUses().uses, { demo: false })
  const headers = { ...FROM_OUR_PAGE, 'content-type': 'application/x-www-form-urlencoded' }
  const sent = { method: 'POST', body: 'name=1&'.repeat(36_000), headers }
  const began = performance.now()
  expect((await app.request(`${ORIGIN}/sign-in`, sent)).status).toBe(422)
  const once = performance.now()
  // As many fields with names of their own is the measure: 36,000 copies of 36,000 took hundreds of times as long.
  const names = Array.from({ length: 36_000 }, (_, n) => `${n.toString(36)}=1`).join('&')
  expect((await app.request(`${ORIGIN}/sign-in`, { ...sent, body: names })).status).toBe(422)
  expect((once - began) / (performance.now() - once)).toBeLessThan(20)
})

describe('JSON that is made to hurt', () => {
  const judged = async (body: string) => {
    const app = createApp(cannedUses().uses, { demo: false, ...asOwner })
    const headers = { ...FROM_OUR_PAGE, 'content-type': 'application/json' }
    const answer = await app.request(`${ORIGIN}/api/v1/fit`, { method: 'POST', body, headers })
    return { status: answer.status, text: await answer.text() }
  }
  test('100,000 lists in one another are refused like any other wrong value', async () => {
    for (const body of [
      `${'['.repeat(100_000)}${']'.repeat(100_000)}`,
      `{"machine":{"parts":${'['.repeat(60_000)}${']'.repeat(60_000)}},"change":{}}`,
      `${'{"machine":'.repeat(20_000)}1${'}'.repeat(20_000)}`,
    ])
      expect((await judged(body)).status).toBe(422)
  })

  // Before, 20,000 wrong parts in 40 kB were answered with 2.3 MB.
  test('what is wrong a thousandfold is told a hundredfold', async () => {
    const { status, text } = await judged(
      JSON.stringify({ machine: { parts: Array(2000).fill(1) }, change: {} }),
    )
    expect(status).toBe(422)
    const { problems } = JSON.parse(text)
    expect(problems).toHaveLength(101)
    expect(problems.at(-1).next).toMatch(/^And 1\d{3} more\. /)
    expect(text.length).toBeLessThan(20_000)
  })
})

// OWASP ASVS 4.0, 8.2.1: what is private is kept by no cache.
test.each([
  '/',
  '/machines',
  '/settings/accounts',
  '/settings/access',
  '/export/shelf.csv',
  '/api/v1/shop',
  `/o/${TOKEN}`,
])('%s is stored by no cache (RFC 9111, 5.2.2.5)', async (path) => {
  const app = createApp(cannedUses().uses, { demo: false, ...asOwner })
  expect((await app.request(`${ORIGIN}${path}`)).headers.get('cache-control')).toBe('no-store')
})
