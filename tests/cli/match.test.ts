import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'

const SHOP = fileURLToPath(new URL('../../fixtures/demo-shop', import.meta.url))

async function match(stdin: string, ...args: readonly string[]) {
  const said = { out: '', err: '' }
  const code = await runCommand(['match', ...args], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => stdin,
    openStore: () => Promise.reject(new Error('a folder needs no database')),
    now: () => '2026-11-24T15:00:00.000Z',
  })
  return { code, ...said }
}

test('a folder is matched without a database', async () => {
  const ask = { items: [{ itemId: 'S-601', quantity: 2 }], smallestGainPct: 1 }
  const { code, out } = await match(JSON.stringify(ask), SHOP, '-')
  expect(code).toBe(0)
  const document = JSON.parse(out)
  expect(document).toMatchObject({ format: 'stillfits match', version: 1, currency: 'USD', minorDigits: 2 })
  expect(document.certificate).toMatchObject({ holds: true })
  expect(document.offers.length).toBeLessThanOrEqual(2)
  expect(document.offers.length + document.leftOut.length).toBe(document.customers)
})

test('every wrong field is named, with what is allowed', async () => {
  expect(await match('no JSON', SHOP, '-')).toMatchObject({
    code: 2,
    err: expect.stringContaining('no JSON'),
  })
  expect(await match('', SHOP, '/no/such/file')).toMatchObject({ code: 3 })
  const wrong = { items: [{ itemId: 'S-999', quantity: 0 }], aim: 'luck', overOffer: 0.5 }
  const { code, err } = await match(JSON.stringify(wrong), SHOP, '-')
  expect(code).toBe(2)
  for (const field of ['items.0.quantity', 'aim', 'overOffer']) expect(err).toContain(field)
  const noCost = { items: [{ itemId: 'S-601', quantity: 1 }], aim: 'mix' }
  expect((await match(JSON.stringify(noCost), SHOP, '-')).err).toMatch(/costMinor[\s\S]*percentMinor/)
  expect((await match('{"items":[{"itemId":"S-999","quantity":1}]}', SHOP, '-')).err).toContain('S-999')
})
