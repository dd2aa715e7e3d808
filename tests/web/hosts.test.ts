import { describe, expect, test } from 'vitest'
import { webOptionsOf } from '../../src/serve.ts'
import { createApp } from '../../src/web/app.ts'
import { cannedUses } from './cannedUses.ts'
import { asOwner } from './signedIn.ts'

const ask = (host: string, settings: { host: string; hosts?: readonly string[] }, path = '/') => {
  const { uses, calls } = cannedUses()
  const app = createApp(uses, { ...webOptionsOf(false, { hosts: [], ...settings }), ...asOwner })
  return { calls, answer: app.request(`http://${host}${path}`) }
}

const LOOPBACK = { host: '127.0.0.1' }

// A name that an attacker holds can be made to point at 127.0.0.1 (DNS rebinding), so a page there would count as ours.
// 421: RFC 9110, 15.5.20. Loopback names and addresses: RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3.
describe('requests for a name that is not ours', () => {
  test.each([
    'evil.example',
    'evil.example:8080',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    '192.0.2.7',
  ])('%s is refused before any route', async (host) => {
    for (const path of ['/', '/machines', '/assets/app.js', '/nowhere', '/messages/1/mail.eml']) {
      const { answer, calls } = ask(host, LOOPBACK, path)
      const got = await answer
      const text = await got.text()
      expect(got.status, path).toBe(421)
      expect(text).toContain('STILLFITS_HOSTS')
      expect(text).not.toContain('T-0007')
      expect(got.headers.get('content-security-policy')).toContain("default-src 'none'")
      expect(calls).toEqual([])
    }
  })

  test.each(['localhost:8080', 'LOCALHOST', '127.0.0.1:8080', '127.8.0.1', '[::1]:8080', 'shop.localhost'])(
    '%s is this computer',
    async (host) => {
      expect((await ask(host, LOOPBACK).answer).status).toBe(200)
    },
  )

  test.each([
    ['bench.lan', { host: 'bench.lan' }],
    ['bench.lan:8080', { host: '0.0.0.0', hosts: ['bench.lan'] }],
    ['BENCH.lan', { host: '0.0.0.0', hosts: ['bench.lan'] }],
    ['192.0.2.7:8080', { host: '0.0.0.0' }],
    ['[2001:db8::7]:8080', { host: '::' }],
    ['192.0.2.7', { host: '192.0.2.7' }],
  ])('%s is ours with %o', async (host, settings) => {
    expect((await ask(host, settings).answer).status).toBe(200)
  })

  test('a name is not ours only because every address is listened on', async () => {
    expect((await ask('evil.example', { host: '0.0.0.0' }).answer).status).toBe(421)
  })
})

/** Asks as from a connection, as the server hands it on. */
const askFrom = (remoteAddress: string, host: string, proxies: readonly string[], forwarded?: string) => {
  const settings = { host: '0.0.0.0', hosts: ['bench.lan'], ownerUrl: 'https://ask.example', proxies }
  const app = createApp(cannedUses().uses, { ...webOptionsOf(false, settings), ...asOwner })
  const headers: Record<string, string> = forwarded === undefined ? {} : { 'x-forwarded-for': forwarded }
  return app.request(`http://${host}/machines`, { headers }, { incoming: { socket: { remoteAddress } } })
}

// The Host field is the client's word (RFC 9110, 7.2). Under the address of owners nothing but their pages opens, so no
// other name of ours may be had from elsewhere for the asking.
describe('a name of this computer, asked for from elsewhere', () => {
  const PROXY = ['127.0.0.1']
  test.each([
    ['192.0.2.9', 'localhost', [], undefined, 421],
    ['192.0.2.9', 'shop.LOCALHOST:8080', [], undefined, 421],
    ['192.0.2.9', '127.0.0.1:8080', [], undefined, 421],
    ['192.0.2.9', '127.1', [], undefined, 421],
    ['192.0.2.9', '2130706433', [], undefined, 421],
    ['2001:db8::9', '[::1]', [], undefined, 421],
    ['::ffff:192.0.2.9', 'localhost', [], undefined, 421],
    ['192.0.2.9', 'localhost', [], '127.0.0.1', 421],
    ['192.0.2.9', 'bench.lan', [], undefined, 200],
    ['127.0.0.1', 'localhost', [], undefined, 200],
    ['::1', '[::1]:8080', [], undefined, 200],
    ['::ffff:127.0.0.1', 'localhost', [], undefined, 200],
    // Through a proxy on this computer: it is the client that counts, and only the last hop is the proxy's word.
    ['127.0.0.1', 'localhost', PROXY, '192.0.2.9', 421],
    ['127.0.0.1', 'localhost', PROXY, '127.0.0.1, 192.0.2.9', 421],
    ['127.0.0.1', 'localhost', PROXY, '192.0.2.9, 127.0.0.1', 421],
    ['127.0.0.1', 'localhost', PROXY, 'unknown', 421],
    ['127.0.0.1', 'bench.lan', PROXY, '192.0.2.9', 200],
    ['127.0.0.1', '198.51.100.7', PROXY, '192.0.2.9', 421],
    ['127.0.0.1', '0.0.0.0', PROXY, '192.0.2.9', 421],
    ['192.0.2.9', '198.51.100.7', PROXY, undefined, 200],
    // The owner at this computer, past the proxy.
    ['127.0.0.1', 'localhost', PROXY, undefined, 200],
    ['127.0.0.1', 'localhost', PROXY, '::1', 200],
  ] as const)(
    'from %s for %s, proxies %j, forwarded for %s: %i',
    async (from, host, proxies, forwarded, status) => {
      expect((await askFrom(from, host, proxies, forwarded)).status).toBe(status)
    },
  )

  test('the address of owners opens their pages alone, from wherever', async () => {
    for (const from of ['127.0.0.1', '192.0.2.9'])
      expect((await askFrom(from, 'ask.example', [], undefined)).status).toBe(404)
  })
})
