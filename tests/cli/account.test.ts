import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'
import type { Store } from '../../src/store/open.ts'
import { temporaryStore } from '../store/temporaryStore.ts'
import { ownedShop, withStaff } from '../uses/access/accessShop.ts'

async function run(store: Store, args: string[]) {
  const said = { out: '', err: '' }
  const code = await runCommand(['account', ...args], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => '',
    openStore: async () => store,
    now: () => '2026-11-25T09:00:00.000Z',
  })
  return { code, ...said }
}

test('an owner who is locked out gets a code at the terminal, and chooses a password with it', async () => {
  const { store, access, clock, owner } = await ownedShop()
  clock.pass(3600)
  const made = await run(store, ['code', 'ADA'])
  expect(made.code).toBe(0)
  const code = made.out.split('\n')[0] ?? ''
  const again = await access.welcome({ code, name: '', password: 'nine herons over the weir', address: 'x' })
  expect(again.ok).toBe(true)
  expect(await access.sessionOf(owner.token)).toBeUndefined()
})

test('accounts are listed, closed, opened, and signed out everywhere', async () => {
  const shop = await ownedShop()
  const bo = await withStaff(shop)
  expect((await run(shop.store, ['list'])).out).toBe(
    'Ada: owner, signed in at 1\nBo: staff, signed in at 1\n',
  )
  expect((await run(shop.store, ['sign-out', 'bo'])).code).toBe(0)
  expect(await shop.access.sessionOf(bo.token)).toBeUndefined()
  await run(shop.store, ['disable', 'Bo'])
  expect((await run(shop.store, ['list'])).out).toContain('Bo: staff, closed')
  await run(shop.store, ['enable', 'Bo'])
  expect(JSON.parse((await run(shop.store, ['list', '--json'])).out)[1]).not.toHaveProperty('disabledAt')
})

test('wrong use says what is allowed, and nothing secret is in a listing', async () => {
  const { store } = await ownedShop()
  for (const unknown of ['delete', 'constructor', '__proto__', 'toString'])
    expect(await run(store, [unknown, 'Ada'])).toMatchObject({
      code: 2,
      err: expect.stringContaining('sign-out'),
    })
  expect(await run(store, ['code'])).toMatchObject({ code: 2, err: expect.stringContaining('NAME') })
  expect(await run(store, ['code', 'Eve'])).toMatchObject({ code: 3 })
  expect(await run(store, ['disable', 'Ada'])).toMatchObject({
    code: 2,
    err: expect.stringContaining('only owner'),
  })
  expect((await run(store, ['list', '--json'])).out).not.toMatch(/scrypt|hash/i)
  expect((await run(await temporaryStore(), ['list'])).out).toContain('npm start')
})

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

test.each(['0.0.0.0', '::', '192.0.2.1', 'shop.example'])('the demo is not served on %s', (host) => {
  const env = { ...process.env, STILLFITS_HOST: host, STILLFITS_PORT: '0' }
  const { status, stderr, stdout } = spawnSync(process.execPath, [BIN, 'demo'], {
    env,
    encoding: 'utf8',
    // It ends what hangs: a busy computer takes 15 s to read the program.
    timeout: 100_000,
  })
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
  expect(stderr).toBe(
    'STILLFITS_HOST: The demo has no sign-in, so it is served to this computer alone. Set it to 127.0.0.1 for the demo.\n',
  )
})
