import { describe, expect, test } from 'vitest'
import { webOptionsOf } from '../../src/main.ts'
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
