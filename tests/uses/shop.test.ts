import { expect, test } from 'vitest'
import { importShop } from '../../src/uses/importShop.ts'
import { describeShop, shopOrNeutral } from '../../src/uses/shop.ts'
import { temporaryStore } from '../store/temporaryStore.ts'

const csv = (name: string, text: string) => ({ name, bytes: new TextEncoder().encode(text) })

test('a shop that has said nothing has neutral particulars, and keeps what it then says', async () => {
  const store = await temporaryStore()
  const neutral = await shopOrNeutral(store.db)
  expect(neutral).toMatchObject({ email: '', policy: { currency: 'USD', supplyShare: 0.8 } })
  const said = { ...neutral, name: 'A shop', email: 'bench@example.com', timeZone: 'Europe/Berlin' }
  expect(await describeShop(store, said)).toMatchObject({ ok: true })
  expect(await shopOrNeutral(store.db)).toEqual(said)
})

test('the currency stays once there are prices in it', async () => {
  const store = await temporaryStore()
  const imported = await importShop(store, [
    csv('supplies.csv', 'part,name\nPSU-1,A supply\n'),
    csv('shelf.csv', 'item,part,condition,quantity,price,priced_on\nS-1,PSU-1,new,1,50,2026-01-02\n'),
    csv(
      'shop.csv',
      'name,address,email,builder,currency,locale,time_zone\nA,B,a@example.com,C,USD,en-US,UTC\n',
    ),
  ])
  expect(imported).toMatchObject({ ok: true })
  const shop = await shopOrNeutral(store.db)
  const yen = { ...shop, policy: { ...shop.policy, currency: 'JPY' } }
  expect(await describeShop(store, yen)).toMatchObject({ ok: false, problems: [{ field: 'currency' }] })
  expect(await shopOrNeutral(store.db)).toEqual(shop)
})
