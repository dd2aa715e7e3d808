import { describe, expect, test } from 'vitest'
import { ownedShop, PASSWORD, withStaff } from './accessShop.ts'

const MINUTE = 60

// OWASP ASVS 4.0, 3.7.1 and 4.3.1 in part: the password once more before what opens the shop to others.
describe('a password that was typed lately', () => {
  test('signing in counts, for 15 minutes and in that browser alone', async () => {
    const { access, clock, owner } = await ownedShop()
    const other = await access.signIn({ name: 'Ada', password: PASSWORD, address: 'phone' })
    clock.pass(15 * MINUTE - 1)
    expect(await access.isProven(owner.token)).toBe(true)
    clock.pass(1)
    expect(await access.isProven(owner.token)).toBe(false)
    expect(await access.prove({ token: owner.token, password: PASSWORD, address: 'home' })).toMatchObject({
      ok: true,
    })
    expect(await access.isProven(owner.token)).toBe(true)
    expect(await access.isProven(other.ok ? other.value.token : '')).toBe(false)
    clock.pass(15 * MINUTE)
    expect(await access.isProven(owner.token)).toBe(false)
  })

  test('looking about does not prolong it', async () => {
    const { access, clock, owner } = await ownedShop()
    for (let n = 0; n < 4; n++) {
      clock.pass(5 * MINUTE)
      await access.sessionOf(owner.token)
    }
    expect(await access.isProven(owner.token)).toBe(false)
  })

  test('a wrong one, another’s, and no session prove nothing; wrong ones have to wait as at the sign-in', async () => {
    const shop = await ownedShop()
    const { access, clock, owner } = shop
    await withStaff(shop)
    clock.pass(20 * MINUTE)
    const tries = []
    for (const password of ['', `${PASSWORD} Bo`, 'wrong', PASSWORD])
      tries.push(await access.prove({ token: owner.token, password, address: 'home' }))
    expect(tries.map((tried) => tried.ok)).toEqual([false, false, false, false])
    expect(tries.at(-1)).toMatchObject({ waitSeconds: 5, problems: [{ code: 'too many', field: 'proof' }] })
    expect(await access.isProven(owner.token)).toBe(false)
    clock.pass(5)
    expect((await access.prove({ token: owner.token, password: PASSWORD, address: 'home' })).ok).toBe(true)
    for (const token of ['', 'guessed', `${owner.token}A`]) {
      expect(await access.isProven(token)).toBe(false)
      expect((await access.prove({ token, password: PASSWORD, address: 'x' })).ok).toBe(false)
    }
  })
})
