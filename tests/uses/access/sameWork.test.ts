import { beforeEach, expect, test, vi } from 'vitest'
import { ownedShop, PASSWORD, withStaff } from './accessShop.ts'

/** How many hashes were computed; counted where the language computes them, so no clock is asked. */
const hashes = vi.hoisted(() => ({ count: 0 }))
vi.mock('node:crypto', async (load) => {
  const real = await load<typeof import('node:crypto')>()
  const scrypt = (...args: Parameters<typeof real.scrypt>) => {
    hashes.count++
    real.scrypt(...args)
  }
  return { ...real, scrypt }
})
beforeEach(() => {
  hashes.count = 0
})

// OWASP Authentication Cheat Sheet, "Authentication Responses": a quick way out for unknown names tells which are known.
test.each([
  ['a wrong password', 'Ada', 'not the right one'],
  ['an unknown name', 'Nobody', 'not the right one'],
  ['no name', '', ''],
  ['a closed account with its password', 'Bo', `${PASSWORD} Bo`],
  ['an account that has no password yet', 'Cy', 'not the right one'],
  ['a password of a million signs', 'Ada', 'x'.repeat(1_000_000)],
  ['a password of a million signs for an unknown name', 'Nobody', 'x'.repeat(1_000_000)],
])('%s costs one hash', async (_, name, password) => {
  const shop = await ownedShop()
  const bo = await withStaff(shop)
  await shop.access.disableAccount(bo.id, 'Ada')
  await shop.access.addAccount({ name: 'Cy', role: 'staff' }, 'Ada')
  expect(hashes.count).toBeGreaterThan(0)
  hashes.count = 0
  expect((await shop.access.signIn({ name, password, address: 'a' })).ok).toBe(false)
  expect(hashes.count).toBe(1)
})
