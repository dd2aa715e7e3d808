import { sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { upsertCustomers } from '../../src/store/customers.ts'
import {
  consentHistory,
  customersWithOffers,
  giveConsent,
  mayOfferTo,
  withdrawConsent,
} from '../../src/uses/consent.ts'
import { temporaryStore } from '../store/temporaryStore.ts'

const AT = ['2026-11-01T10:00:00.000Z', '2026-11-02T10:00:00.000Z', '2026-11-03T10:00:00.000Z'] as const
const said = { kind: 'offers', source: 'in person', wording: 'You may write to me.', language: 'en' } as const

async function shop() {
  const store = await temporaryStore()
  await store.write((tx) =>
    upsertCustomers(tx, [
      { id: 'C1', name: 'One Invented' },
      { id: 'C2', name: 'Two Invented' },
    ]),
  )
  return store
}

test('a yes and a no are both kept, with source, date and words; the no counts at once', async () => {
  const store = await shop()
  expect(await mayOfferTo(store.db, 'C1', AT[2])).toBe(false)
  expect(await giveConsent(store, 'C1', said, AT[0])).toEqual({ ok: true, value: { customerId: 'C1' } })
  expect(await customersWithOffers(store.db, AT[2])).toEqual(new Set(['C1']))
  await withdrawConsent(store, 'C1', { kind: 'offers', source: 'unsubscribe' }, AT[1])
  expect(await mayOfferTo(store.db, 'C1', AT[1])).toBe(false)
  expect(await consentHistory(store.db, 'C1')).toMatchObject([
    { standing: 'withdrawn', source: 'unsubscribe', at: AT[1] },
    { standing: 'given', source: 'in person', at: AT[0], wording: 'You may write to me.', language: 'en' },
  ])
})

test('said twice it is kept once; a yes to other words is another yes', async () => {
  const store = await shop()
  await giveConsent(store, 'C1', said, AT[0])
  await giveConsent(store, 'C1', said, AT[1])
  expect(await consentHistory(store.db, 'C1')).toHaveLength(1)
  await giveConsent(store, 'C1', { ...said, wording: 'Once a year.' }, AT[1])
  for (const at of [AT[1], AT[2]]) await withdrawConsent(store, 'C1', { kind: 'offers', source: 'mail' }, at)
  expect((await consentHistory(store.db, 'C1')).map(({ standing }) => standing)).toEqual([
    ...['withdrawn', 'given', 'given'],
  ])
})

test('an objection without a yes before it is kept too', async () => {
  const store = await shop()
  await withdrawConsent(store, 'C2', { kind: 'offers', source: 'mail' }, AT[0])
  expect(await consentHistory(store.db, 'C2')).toHaveLength(1)
})

test('a yes without its words, of nobody or of somebody erased is refused', async () => {
  const store = await shop()
  expect(await giveConsent(store, 'C1', { ...said, wording: ' ' }, AT[0])).toMatchObject({
    problems: [{ code: 'missing', field: 'wording' }],
  })
  expect(await giveConsent(store, 'C9', said, AT[0])).toMatchObject({ problems: [{ code: 'not found' }] })
  await store.db.run(sql`update customers set erased_at = ${AT[0]} where id = 'C2'`)
  expect(await giveConsent(store, 'C2', said, AT[1])).toMatchObject({ problems: [{ code: 'conflict' }] })
  expect(await customersWithOffers(store.db, AT[2])).toEqual(new Set())
})

test('the database itself changes and deletes no consent', async () => {
  const store = await shop()
  await giveConsent(store, 'C1', said, AT[0])
  await expect(store.db.run(sql`update consents set standing = 'withdrawn'`)).rejects.toThrow()
  await expect(store.db.run(sql`delete from consents`)).rejects.toThrow()
  expect(await mayOfferTo(store.db, 'C1', AT[1])).toBe(true)
})
