import { describe, expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { reachOf } from '../../src/web/ownerUrl.tsx'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE } from './serve.ts'
import { asOwner } from './signedIn.ts'

describe('from where a link can be opened', () => {
  // RFC 1122, 3.2.1.3; RFC 1918, 3; RFC 3927; RFC 4193; RFC 4291; RFC 6598; RFC 6761, 6.3; RFC 6762, 3; RFC 8375
  test.each([
    ['http://localhost:8080', 'this computer'],
    ['http://127.0.0.1:8080', 'this computer'],
    ['http://[::1]:8080', 'this computer'],
    ['http://192.168.1.20', 'this network'],
    ['http://10.0.0.4:8080', 'this network'],
    ['http://172.16.0.1', 'this network'],
    ['http://172.31.255.1', 'this network'],
    ['http://172.32.0.1', 'anywhere'],
    ['http://169.254.3.4', 'this network'],
    ['http://100.64.0.1', 'this network'],
    ['http://100.128.0.1', 'anywhere'],
    ['http://[fd12:3456::1]', 'this network'],
    ['http://[fe80::1]', 'this network'],
    ['http://bench', 'this network'],
    ['http://bench.local', 'this network'],
    ['http://bench.home.arpa', 'this network'],
    ['https://ask.example.com', 'anywhere'],
    ['https://203.0.113.9', 'anywhere'],
    ['https://local.example.com', 'anywhere'],
  ] as const)('%s: %s', (origin, reach) => {
    expect(reachOf(`${origin}/o/token`)).toBe(reach)
  })
})

describe('the link in the text for a chat', () => {
  const linkIn = async (at: string, ownerUrl?: string) => {
    const app = createApp(cannedUses().uses, { demo: false, ...asOwner, ownerUrl })
    const headers = { ...FROM_OUR_PAGE, origin: at }
    const text = await (await app.request(`${at}/messages/1/link`, { method: 'POST', headers })).text()
    return { link: /https?:\/\/[^\s<]+\/o\//.exec(text)?.[0], text }
  }

  test('leads to the public address of owners where one is set', async () => {
    const { link, text } = await linkIn('http://bench.local', 'https://ask.example.com')
    expect(link).toBe('https://ask.example.com/o/')
    expect(text).not.toContain('STILLFITS_OWNER_URL')
  })

  test('else to where the page was asked for, and says when no phone at home can open that', async () => {
    const { link, text } = await linkIn('http://192.168.1.20:8080')
    expect(link).toBe('http://192.168.1.20:8080/o/')
    expect(text).toContain('STILLFITS_OWNER_URL')
    expect((await linkIn('https://shop.example.com')).text).not.toContain('STILLFITS_OWNER_URL')
  })
})
