import { scryptSync } from 'node:crypto'
import { expect, test } from 'vitest'
import { COST, hashPassword, isDated, isPassword } from '../../../src/uses/access/passwordHash.ts'
import { PASSWORD_MAX, PASSWORD_MIN, passwordProblem } from '../../../src/uses/access/passwordRules.ts'

const CHEAP = { log2N: 4, r: 8, p: 1 }

// OWASP Password Storage Cheat Sheet, "scrypt": N = 2^17, r = 8, p = 1.
test('a password costs what OWASP asks for, and is kept with parameters and salt', async () => {
  const kept = await hashPassword('four mice in a drawer')
  const [kind, log2N, r, p, salt = '', key = ''] = kept?.split('$') ?? []
  expect([kind, log2N, r, p]).toEqual(['scrypt', '17', '8', '1'])
  expect(COST).toEqual({ log2N: 17, r: 8, p: 1 })
  expect(Buffer.from(salt, 'base64')).toHaveLength(16)
  // Node's own scrypt (RFC 7914) is the reference.
  const again = scryptSync('four mice in a drawer', Buffer.from(salt, 'base64'), 32, {
    ...{ N: 131_072, r: 8, p: 1, maxmem: 2 ** 28 },
  })
  expect(key).toBe(again.toString('base64'))
  expect(await isPassword('four mice in a drawer', kept)).toBe(true)
  expect(await isPassword('four mice in a drawer ', kept)).toBe(false)
})

test('two hashes of one password differ, and one that was kept cheaply is dated', async () => {
  const [a, b] = await Promise.all([
    hashPassword('four mice in a drawer', CHEAP),
    hashPassword('four mice in a drawer', CHEAP),
  ])
  expect(a).not.toBe(b)
  expect(isDated(a ?? '')).toBe(true)
  expect(isDated(a ?? '', CHEAP)).toBe(false)
  expect(await isPassword('four mice in a drawer', a)).toBe(true)
})

// NIST SP 800-63B, 5.1.1.2: Unicode is normalized before it is hashed.
test('the same letters typed composed or apart are one password', async () => {
  const kept = await hashPassword('Caf\u00e9 am gr\u00fcnen Tor', CHEAP)
  expect(await isPassword('Cafe\u0301 am gru\u0308nen Tor', kept)).toBe(true)
})

test('where nothing is kept it is false, at the price of a real look', async () => {
  const kept = (await hashPassword('four mice in a drawer')) ?? ''
  const timed = async (stored: string | undefined) => {
    const began = performance.now()
    expect(await isPassword('something else entirely', stored)).toBe(false)
    return performance.now() - began
  }
  const [real, nobodys] = [await timed(kept), await timed(undefined)]
  // Both compute one scrypt of 128 MiB; a look without one takes less than a hundredth of it.
  expect(nobodys).toBeGreaterThan(real / 4)
  expect(real).toBeGreaterThan(nobodys / 4)
})

test('one hash at a time; who comes when 20 wait is told so at once', async () => {
  const asked = Array.from({ length: 25 }, () => isPassword('x', undefined, CHEAP))
  expect(asked.filter((a) => a === undefined)).toHaveLength(5)
  expect(await Promise.all(asked.filter((a) => a !== undefined))).toEqual(Array(20).fill(false))
  expect(await isPassword('x', undefined, CHEAP)).toBe(false)
})

// OWASP ASVS 4.0: 2.1.1 (12 or more), 2.1.2 (64 or more are taken), 2.1.4 (any printable character), 2.1.9 (no rules
// of composition).
test.each([
  ['four mice in a drawer'],
  ['zwölf Äpfel im Korb'],
  ['kloreptumsavi'],
  ['平成の古い机と赤い傘の話'],
  ['💾🔧🧲🧰🪛🔩⚙️🖥️🎮🕹️💡🔌'],
  ['x'.padEnd(64, 'quite a long line of words that goes on ')],
])('%s is taken', (password) => {
  expect(passwordProblem('password', password, ['Ada', 'The Shop'])).toBeUndefined()
})

test.each([
  ['', 'missing'],
  ['short words', 'not allowed'],
  ['a'.repeat(PASSWORD_MAX + 1), 'not allowed'],
])('%s is refused by its length', (password, code) => {
  const problem = passwordProblem('password', password, [])
  expect(problem).toMatchObject({ code, field: 'password' })
  expect(problem?.next).toContain(`${PASSWORD_MIN} to ${PASSWORD_MAX}`)
  expect(problem).not.toHaveProperty('got')
})

// NIST SP 800-63B, 5.1.1.2: common, repeated and running ones, and the names around, are refused. The list is our own.
test.each([
  'passwordpassword',
  'Password12345',
  'P4ssw0rd!2026',
  'aaaaaaaaaaaaaa',
  'abcabcabcabc',
  '123456789012',
  'abcdefghijkl',
  'qwertyuiop[]as',
  'lkjhgfdsapoi',
  '!!!!!!!!!!!!!!',
  'stillfits 2026',
  'Ada Ada Ada Ada',
  'Cornerbench!1',
  'changeme-changeme',
  'administrator1',
])('%s would be guessed first', (password) => {
  const problem = passwordProblem('password', password, ['Ada', 'Corner Bench'])
  expect(problem?.next).toContain('guessed early')
})
