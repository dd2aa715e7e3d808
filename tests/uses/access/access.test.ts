import { describe, expect, test } from 'vitest'
import { tidyCode } from '../../../src/uses/access/secrets.ts'
import { dump } from '../../store/temporaryStore.ts'
import { newShop, ownedShop, PASSWORD, withStaff } from './accessShop.ts'

const DAY = 86_400
const wrongPassword = { name: 'Ada', password: 'not the right one' }

describe('the first account', () => {
  test('is made once, by whoever has the code; nothing of code, password or cookie is kept', async () => {
    const { access, store, code } = await newShop()
    expect(await access.isNewShop()).toBe(true)
    const given = {
      code: code.toUpperCase().replaceAll('-', ' '),
      name: ' Ada ',
      password: PASSWORD,
      address: 'home',
    }
    const made = await access.welcome(given)
    expect(made.ok && made.value.signedIn).toEqual({ accountId: '1', name: 'Ada', role: 'owner' })
    const kept = JSON.stringify(await dump(store))
    for (const secret of [code, tidyCode(code), PASSWORD, made.ok ? made.value.token : code])
      expect(kept).not.toContain(secret)
    expect(await access.welcome({ ...given, name: 'Eve' })).toMatchObject({ ok: false })
    expect(await access.accounts()).toHaveLength(1)
  })

  test('two at once with the same code make one account', async () => {
    const { access, code } = await newShop()
    const both = await Promise.all(
      ['Ada', 'Eve'].map((name) => access.welcome({ code, name, password: PASSWORD, address: name })),
    )
    expect(both.filter((made) => made.ok)).toHaveLength(1)
    expect(await access.accounts()).toHaveLength(1)
  })

  test('a code survives what has to be put right, and a wrong code does nothing', async () => {
    const { access, code } = await newShop()
    const wrong = await access.welcome({
      code: '00000-00000-00000-00000',
      name: 'Eve',
      password: PASSWORD,
      address: 'x',
    })
    expect(wrong).toMatchObject({ ok: false, problems: [{ field: 'code' }] })
    const short = await access.welcome({ code, name: '', password: 'short', address: 'home' })
    expect(short).toMatchObject({ ok: false, problems: [{ field: 'name' }, { field: 'password' }] })
    expect((await access.welcome({ code, name: 'Ada', password: PASSWORD, address: 'home' })).ok).toBe(true)
  })

  test('a shop that has an account takes no first code, not even a fresh one', async () => {
    const { store } = await ownedShop()
    const restarted = await newShop(store)
    const tried = await restarted.access.welcome({
      ...{ code: restarted.code, name: 'Eve', password: PASSWORD, address: 'x' },
    })
    expect(tried.ok).toBe(false)
    expect(await restarted.access.accounts()).toHaveLength(1)
  })
})

describe('signing in', () => {
  test('a name in any case and the right password open a session that knows who it is', async () => {
    const { access } = await ownedShop()
    const opened = await access.signIn({ name: ' aDa', password: PASSWORD, address: 'home' })
    if (!opened.ok) throw new Error('not signed in')
    // 256 bits (OWASP ASVS 4.0, 3.2.2: at least 64).
    expect(Buffer.from(opened.value.token, 'base64url')).toHaveLength(32)
    expect(await access.sessionOf(opened.value.token)).toEqual({ accountId: '1', name: 'Ada', role: 'owner' })
    expect(await access.sessionOf(`${opened.value.token}A`)).toBeUndefined()
    expect(await access.sessionOf('')).toBeUndefined()
  })

  // OWASP ASVS 4.0, 3.2.1: a new token at each sign-in.
  test('each sign-in has a token of its own, and the one the browser had ends', async () => {
    const { access, owner } = await ownedShop()
    const again = await access.signIn({
      name: 'Ada',
      password: PASSWORD,
      address: 'home',
      earlier: owner.token,
    })
    expect(again.ok && again.value.token).not.toBe(owner.token)
    expect(await access.sessionOf(owner.token)).toBeUndefined()
  })

  test('an unknown name, a wrong password and a closed account are answered alike', async () => {
    const shop = await ownedShop()
    const bo = await withStaff(shop)
    await shop.access.disableAccount(bo.id, 'Ada')
    const answers = [
      await shop.access.signIn({ ...wrongPassword, address: 'a' }),
      await shop.access.signIn({ ...wrongPassword, name: 'Nobody', address: 'b' }),
      await shop.access.signIn({ name: 'Bo', password: `${PASSWORD} Bo`, address: 'c' }),
      await shop.access.signIn({ name: '', password: '', address: 'd' }),
    ]
    for (const answer of answers) expect(answer).toEqual(answers[0])
  })

  test('14 days without use end a session, use prolongs it, and after 90 days it ends anyway', async () => {
    const { access, clock, owner } = await ownedShop()
    for (let days = 0; days < 84; days += 12) {
      clock.pass(12 * DAY)
      expect(await access.sessionOf(owner.token), `${days + 12} days`).toBeDefined()
    }
    clock.pass(7 * DAY)
    expect(await access.sessionOf(owner.token)).toBeUndefined()
    const idle = await access.signIn({ name: 'Ada', password: PASSWORD, address: 'home' })
    clock.pass(14 * DAY - 1)
    expect(await access.sessionOf(idle.ok ? idle.value.token : '')).toBeDefined()
    clock.pass(14 * DAY)
    expect(await access.sessionOf(idle.ok ? idle.value.token : '')).toBeUndefined()
  })

  test('signing out ends this browser; everywhere ends all of this account and no other', async () => {
    const shop = await ownedShop()
    const { access, owner } = shop
    const bo = await withStaff(shop)
    const second = await access.signIn({ name: 'Ada', password: PASSWORD, address: 'phone' })
    await access.signOut(owner.token)
    expect(await access.sessionOf(owner.token)).toBeUndefined()
    expect(await access.sessionOf(second.ok ? second.value.token : '')).toBeDefined()
    await access.signOutEverywhere('1')
    expect(await access.sessionOf(second.ok ? second.value.token : '')).toBeUndefined()
    expect(await access.sessionOf(bo.token)).toBeDefined()
  })
})

describe('passwords and accounts', () => {
  // OWASP ASVS 4.0, 2.1.6 and 3.3.3.
  test('another password takes the present one, and ends every session but the new one', async () => {
    const { access, owner } = await ownedShop()
    const other = await access.signIn({ name: 'Ada', password: PASSWORD, address: 'phone' })
    const change = { accountId: '1', password: 'nine herons over the weir', address: 'home' }
    expect(await access.changePassword({ ...change, current: 'wrong' })).toMatchObject({
      problems: [{ field: 'current' }],
    })
    const changed = await access.changePassword({ ...change, current: PASSWORD })
    expect(await access.sessionOf(changed.ok ? changed.value.token : '')).toBeDefined()
    expect(await access.sessionOf(owner.token)).toBeUndefined()
    expect(await access.sessionOf(other.ok ? other.value.token : '')).toBeUndefined()
    expect((await access.signIn({ name: 'Ada', password: PASSWORD, address: 'home' })).ok).toBe(false)
    expect((await access.signIn({ name: 'Ada', password: change.password, address: 'home' })).ok).toBe(true)
  })

  test('a code holds once, for 48 hours, and the newest alone; it signs everybody else out', async () => {
    const shop = await ownedShop()
    const { access, clock } = shop
    const bo = await withStaff(shop)
    const codes = [await access.newCodeFor(bo.id, 'Ada'), await access.newCodeFor(bo.id, 'Ada')].map(
      (made) => (made.ok ? made.value.code : ''),
    )
    const take = (code = '') =>
      access.welcome({ code, name: '', password: 'nine herons over the weir', address: 'z' })
    expect((await take(codes[0])).ok).toBe(false)
    expect(await access.sessionOf(bo.token)).toBeDefined()
    expect((await take(codes[1])).ok).toBe(true)
    expect(await access.sessionOf(bo.token)).toBeUndefined()
    expect((await take(codes[1])).ok).toBe(false)
    const late = await access.newCodeFor(bo.id, 'Ada')
    clock.pass(2 * DAY)
    expect((await take(late.ok ? late.value.code : '')).ok).toBe(false)
  })

  test('another password ends a code that was given out before', async () => {
    const { access } = await ownedShop()
    const made = await access.newCodeFor('1', 'Ada')
    await access.changePassword({
      ...{ accountId: '1', current: PASSWORD, password: 'nine herons over the weir', address: 'home' },
    })
    const code = made.ok ? made.value.code : ''
    const taken = await access.welcome({ code, name: '', password: 'ten herons over the weir', address: 'z' })
    expect(taken.ok).toBe(false)
  })

  test('a closed account is out at once, takes no code, and can be opened again', async () => {
    const shop = await ownedShop()
    const { access } = shop
    const bo = await withStaff(shop)
    const waiting = await access.newCodeFor(bo.id, 'Ada')
    await access.disableAccount(bo.id, 'Ada')
    expect(await access.sessionOf(bo.token)).toBeUndefined()
    const code = waiting.ok ? waiting.value.code : ''
    expect((await access.welcome({ code, name: '', password: PASSWORD, address: 'z' })).ok).toBe(false)
    expect(await access.newCodeFor(bo.id, 'Ada')).toMatchObject({ problems: [{ code: 'conflict' }] })
    await access.enableAccount(bo.id, 'Ada')
    expect((await access.signIn({ name: 'Bo', password: `${PASSWORD} Bo`, address: 'q' })).ok).toBe(true)
  })

  test('the last owner cannot be closed; names differ by more than case', async () => {
    const { access } = await ownedShop()
    expect(await access.disableAccount('1', 'Ada')).toMatchObject({ problems: [{ code: 'conflict' }] })
    expect(await access.addAccount({ name: 'ADA', role: 'staff' }, 'Ada')).toMatchObject({
      problems: [{ code: 'duplicate', field: 'name' }],
    })
    for (const name of ['', '\u202eadA', 'a\nb\u0000', 'x'.repeat(61)])
      expect(await access.addAccount({ name, role: 'staff' }, 'Ada'), name).toMatchObject({ ok: false })
    for (const id of ['9', '', "1' or 1=1", '1e1'])
      expect(await access.disableAccount(id, 'Ada'), id).toMatchObject({ problems: [{ code: 'not found' }] })
  })
})

describe('keys of programs', () => {
  test('read or write; taken back they are nobody’s; kept as a hash; when last used is known', async () => {
    const { access, store } = await ownedShop()
    const make = async (scope: 'read' | 'write') => {
      const made = await access.makeToken({ name: scope, scope, people: false, accountId: '1' })
      return made.ok ? made.value.token : ''
    }
    const [read, write] = [await make('read'), await make('write')]
    expect(await access.tokenOf(read)).toEqual({ name: 'read', scopes: ['read'] })
    expect(await access.tokenOf(write)).toEqual({ name: 'write', scopes: ['read', 'write'] })
    for (const no of ['', read.slice(0, -1), `${read}x`, read.replace('sft_', '')])
      expect(await access.tokenOf(no)).toBeUndefined()
    expect(JSON.stringify(await dump(store))).not.toContain(read.slice(4))
    const [first] = (await access.tokens()).filter((t) => t.name === 'read')
    expect(first?.usedAt).toBe('2026-11-25T08:00:00.000Z')
    await access.takeTokenBack(first?.id ?? '', 'Ada')
    expect(await access.tokenOf(read)).toBeUndefined()
    expect(await access.tokenOf(write)).toBeDefined()
  })

  test('they end with the account that made them', async () => {
    const { access } = await ownedShop()
    const added = await access.addAccount({ name: 'Cy', role: 'owner' }, 'Ada')
    const id = added.ok ? added.value.id : ''
    const made = await access.makeToken({ name: 'till', scope: 'read', people: true, accountId: id })
    await access.disableAccount(id, 'Ada')
    expect(await access.tokenOf(made.ok ? made.value.token : '')).toBeUndefined()
  })
})
