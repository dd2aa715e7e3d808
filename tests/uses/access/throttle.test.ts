import { expect, test } from 'vitest'
import { type Failures, waitMs } from '../../../src/uses/access/throttle.ts'
import { newShop, ownedShop, PASSWORD } from './accessShop.ts'

const NONE: Failures = { pair: [], address: [], name: [] }
const wrong = (address: string, name = 'Ada') => ({ name, address, password: 'not the right one' })

test('three free tries, then 5 s, 10 s, 20 s, up to 15 minutes', () => {
  const after = (n: number) => waitMs({ ...NONE, pair: Array(n).fill(0) }, true, 0) / 1000
  expect([0, 1, 2, 3, 4, 5, 10, 11, 50].map(after)).toEqual([0, 0, 0, 5, 10, 20, 640, 900, 900])
})

// OWASP ASVS 4.0, 2.2.1: no more than 100 failed attempts an hour on one account.
test('one address guesses no more than 100 times an hour, and all together no more than 100', () => {
  for (const known of [false, true]) {
    const failures: number[] = []
    for (let ms = 0; ms < 3_600_000; ms += 1000)
      if (waitMs({ pair: failures, address: failures, name: failures }, known, ms) === 0) failures.push(ms)
    expect(failures.length, `${known}`).toBeLessThan(20)
  }
  // Each try from another address: 40 free ones, then one a minute.
  const spread: number[] = []
  for (let ms = 0; ms < 2 * 3_600_000; ms += 1000)
    if (waitMs({ ...NONE, name: spread }, false, ms) === 0) spread.push(ms)
  for (const start of spread)
    expect(spread.filter((ms) => ms >= start && ms < start + 3_600_000).length).toBeLessThanOrEqual(100)
})

test('the fourth wrong password has to wait; even the right one is not looked at before', async () => {
  const { access, clock } = await ownedShop()
  for (let i = 0; i < 3; i++) expect(await access.signIn(wrong('cafe'))).not.toHaveProperty('waitSeconds')
  const right = { name: 'Ada', password: PASSWORD, address: 'cafe' }
  expect(await access.signIn(right)).toMatchObject({ waitSeconds: 5, problems: [{ code: 'too many' }] })
  clock.pass(4)
  expect((await access.signIn(right)).ok).toBe(false)
  clock.pass(1)
  expect((await access.signIn(right)).ok).toBe(true)
  // Whoever is in starts anew.
  expect(await access.signIn(wrong('cafe'))).not.toHaveProperty('waitSeconds')
})

test('a name that nobody has is throttled in the same words', async () => {
  const { access } = await ownedShop()
  for (const name of ['Ada', 'Nobody']) for (let i = 0; i < 3; i++) await access.signIn(wrong('cafe', name))
  expect(await access.signIn(wrong('cafe', 'Nobody'))).toEqual(await access.signIn(wrong('cafe')))
})

test('many at once are counted before any is looked at', async () => {
  const { access } = await ownedShop()
  const tried = await Promise.all(Array.from({ length: 12 }, () => access.signIn(wrong('cafe'))))
  expect(tried.filter((t) => !t.ok && t.waitSeconds === undefined)).toHaveLength(3)
})

test('a restart forgets nothing', async () => {
  const { access, store } = await ownedShop()
  for (let i = 0; i < 3; i++) await access.signIn(wrong('cafe'))
  const restarted = await newShop(store)
  expect(await restarted.access.signIn(wrong('cafe'))).toHaveProperty('waitSeconds', 5)
})

test('strangers everywhere do not lock the owner out where the owner signed in before', async () => {
  const { access } = await ownedShop()
  for (let i = 0; i < 100; i++) await access.signIn(wrong(`stranger ${i}`))
  expect(await access.signIn(wrong('one more'))).toHaveProperty('waitSeconds')
  expect((await access.signIn({ name: 'Ada', password: PASSWORD, address: 'home' })).ok).toBe(true)
})

test('one address that tries many names waits too', async () => {
  const { access } = await ownedShop()
  for (let i = 0; i < 20; i++) await access.signIn(wrong('cafe', `name ${i}`))
  expect(await access.signIn(wrong('cafe', 'another'))).toHaveProperty('waitSeconds', 30)
})

test('a present password is guessed no faster, and a code neither', async () => {
  const { access } = await ownedShop()
  const change = { accountId: '1', current: 'x', password: 'nine herons over the weir', address: 'home' }
  for (let i = 0; i < 3; i++) await access.changePassword(change)
  expect(await access.changePassword({ ...change, current: PASSWORD })).toHaveProperty('waitSeconds', 5)
  const guess = { code: 'x', name: '', password: PASSWORD, address: 'cafe' }
  for (let i = 0; i < 3; i++) await access.welcome(guess)
  expect(await access.welcome(guess)).toMatchObject({ waitSeconds: 5, problems: [{ field: 'code' }] })
})
