import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { noteAccess, REFUSED_MAX } from '../../../src/store/accessLog.ts'
import { makeOwnerLink, takeLinksBack } from '../../../src/uses/ownerLinks.ts'
import { dump } from '../../store/temporaryStore.ts'
import { newShop, ownedShop, PASSWORD, withStaff } from './accessShop.ts'

type Shop = Awaited<ReturnType<typeof ownedShop>>
const NEXT = 'nine herons over the weir'

/** The log without keys and instants, the oldest first. */
const told = async ({ access }: Pick<Shop, 'access'>) =>
  (await access.accessLog(undefined)).events
    .map(({ what, by, about }) => [what, by, about].filter((text) => text !== undefined).join(' · '))
    .reverse()

// OWASP ASVS 4.0, 7.1.3 and 7.2.1: authentication that succeeds and fails; 7.2.2: access decisions that were refused.
describe('what matters for access is written down', () => {
  test('from the first code to closing an account, each with who and about whom', async () => {
    const shop = await ownedShop()
    const { access } = shop
    await access.signIn({ name: 'ada', password: PASSWORD, address: 'home' })
    await access.signIn({ name: 'ada', password: 'not the right one', address: 'home' })
    const bo = await withStaff(shop)
    await access.changePassword({ accountId: '1', current: 'wrong', password: NEXT, address: 'home' })
    const changed = await access.changePassword({
      accountId: '1',
      current: PASSWORD,
      password: NEXT,
      address: 'home',
    })
    const token = changed.ok ? changed.value.token : ''
    await access.prove({ token, password: 'wrong', address: 'home' })
    await access.prove({ token, password: NEXT, address: 'home' })
    await access.newCodeFor(bo.id, 'Ada')
    await access.signOutAccount(bo.id, 'Ada')
    await access.makeToken({ name: 'till', scope: 'read', people: false, accountId: '1' })
    await access.takeTokenBack('1', 'Ada')
    await access.takeTokenBack('1', 'Ada')
    await access.disableAccount(bo.id, 'Ada')
    await access.enableAccount(bo.id, 'Ada')
    await access.signOutEverywhere('1')
    expect(await told(shop)).toEqual([
      'code used · Ada · Ada',
      'signed in · Ada',
      'sign-in refused · Ada',
      'account added · Ada · Bo',
      'code made · Ada · Bo',
      'code used · Bo · Bo',
      'password refused · Ada',
      'password changed · Ada',
      'password refused · Ada',
      'password typed · Ada',
      'code made · Ada · Bo',
      'signed out everywhere · Ada · Bo',
      'key made · Ada · till',
      'key taken back · Ada · till',
      'account closed · Ada · Bo',
      'account opened · Ada · Bo',
      'signed out everywhere · Ada · Ada',
    ])
  })

  test('links of owners too', async () => {
    const shop = await ownedShop()
    await shop.store.db.run(sql`insert into machines (tag) values ('M-0007')`)
    await makeOwnerLink(shop.store, 'm-0007', shop.clock.now(), 'Ada')
    await takeLinksBack(shop.store, 'M-0007', shop.clock.now(), 'key till')
    expect((await told(shop)).slice(1)).toEqual([
      'owner link made · Ada · M-0007',
      'owner links taken back · key till · M-0007',
    ])
  })

  test('what was refused altogether left nothing: an act and its line stand or fall together', async () => {
    const shop = await ownedShop()
    const before = await told(shop)
    await shop.access.disableAccount('1', 'Ada')
    await shop.access.addAccount({ name: 'ADA', role: 'staff' }, 'Ada')
    await shop.access.takeTokenBack('9', 'Ada')
    await makeOwnerLink(shop.store, 'nowhere', shop.clock.now(), 'Ada')
    expect(await told(shop)).toEqual(before)
  })
})

describe('nothing secret is in it', () => {
  test('no password, code, key, link or address; a name that nobody has may be a password', async () => {
    const shop = await newShop()
    const { access, code } = shop
    const address = '203.0.113.77'
    const made = await access.welcome({ code, name: 'Ada', password: PASSWORD, address })
    await access.signIn({ name: 'hunter-of-secrets', password: 'hunter-of-secrets', address })
    const given = await access.newCodeFor('1', 'Ada')
    const key = await access.makeToken({ name: 'till', scope: 'write', people: true, accountId: '1' })
    await shop.store.db.run(sql`insert into machines (tag) values ('M-0007')`)
    const link = await makeOwnerLink(shop.store, 'M-0007', shop.clock.now(), 'Ada')
    if (!made.ok || !given.ok || !key.ok || !link.ok) throw new Error('not made')
    const { access_log: rows = [] } = await dump(shop.store)
    expect(rows.length).toBe(5)
    const kept = JSON.stringify(rows)
    for (const secret of [PASSWORD, 'hunter', code, given.value.code, key.value.token, link.value.token])
      expect(kept).not.toContain(secret)
    for (const secret of [made.value.token, address]) expect(kept).not.toContain(secret)
  })

  test('a place is a mark: the same for one network, another for another, and too short to be tried out', async () => {
    const { access } = await ownedShop()
    for (const address of ['a', 'a', 'b']) await access.signIn({ name: 'Ada', password: PASSWORD, address })
    const [b, again, a] = (await access.accessLog(undefined)).events.map(({ place }) => place)
    expect(a).toMatch(/^[0-9a-f]{6}$/)
    expect(again).toBe(a)
    expect(b).not.toBe(a)
  })
})

describe('it is only added to', () => {
  test('a row cannot be changed', async () => {
    const { store } = await ownedShop()
    const change = store.write((tx) => tx.run(sql`update access_log set "by" = 'nobody'`))
    await expect(change).rejects.toThrow('never changed')
  })

  test('400 days later it goes', async () => {
    const shop = await ownedShop()
    shop.clock.pass(400 * 86_400 - 1)
    await shop.access.signOutEverywhere('1')
    expect(await told(shop)).toHaveLength(2)
    shop.clock.pass(2)
    await shop.access.signOutEverywhere('1')
    expect(await told(shop)).toEqual([
      'signed out everywhere · Ada · Ada',
      'signed out everywhere · Ada · Ada',
    ])
  })

  test('strangers cannot fill it, and what they do pushes nothing else out', async () => {
    const { store, access, clock } = await ownedShop()
    await store.write(async (tx) => {
      for (let n = 0; n < REFUSED_MAX + 20; n++)
        await noteAccess(tx, { at: clock.now(), what: 'sign-in refused' })
    })
    const { access_log: rows = [] } = await dump(store)
    expect(rows).toHaveLength(REFUSED_MAX + 1)
    expect(rows[0]).toContain('code used')
    const first = await access.accessLog(undefined)
    expect(first.events).toHaveLength(100)
    const next = await access.accessLog(String(first.olderThan))
    expect(next.events[0]?.id).toBe((first.events.at(-1)?.id ?? 0) - 1)
    for (const odd of ['', '-1', '1e3', "1' or 1=1"])
      expect((await access.accessLog(odd)).events[0]).toEqual(first.events[0])
  })
})
