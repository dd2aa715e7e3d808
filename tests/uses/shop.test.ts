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

const SHOP_CSV = csv(
  'shop.csv',
  'name,address,email,builder,currency,locale,time_zone\nA,B,a@example.com,C,USD,en-US,UTC\n',
)
const SUPPLY_CSV = csv('supplies.csv', 'part,name\nPSU-1,A supply\n')

test.each([
  [
    'the shelf',
    [
      SUPPLY_CSV,
      csv('shelf.csv', 'item,part,condition,quantity,price,priced_on\nS-1,PSU-1,new,1,50,2026-01-02\n'),
    ],
  ],
  ['work', [csv('work.csv', 'work,minutes,price\nopening,10,5\n')]],
  ['trade-ins', [SUPPLY_CSV, csv('trade_ins.csv', 'part,credit,priced_on\nPSU-1,20,2026-01-02\n')]],
  [
    'questions',
    [
      csv('machines.csv', 'machine\nM-0001\n'),
      csv('titles.csv', 'title,name\nharbor,Harbor\n'),
      csv('settings.csv', 'setting,width_px,height_px,preset\nhigh,1920,1080,high\n'),
      csv(
        'questions.csv',
        'question,machine,asked_on,words,titles,budget\nQ-1,M-0001,2026-01-02,Is it slow?,harbor@high,250\n',
      ),
    ],
  ],
])('the currency stays once there is money in %s: by the settings and by an import', async (place, files) => {
  const store = await temporaryStore()
  expect(await importShop(store, [SHOP_CSV, ...files])).toMatchObject({ ok: true })
  const shop = await shopOrNeutral(store.db)
  const yen = { ...shop, policy: { ...shop.policy, currency: 'JPY' } }
  const said = await describeShop(store, yen)
  expect(said).toMatchObject({ ok: false, problems: [{ code: 'conflict', field: 'currency', got: 'JPY' }] })
  const next = said.ok ? '' : said.problems[0]?.next
  expect(next).toContain(place)
  expect(next).toContain('new database')
  const inYen = csv('shop.csv', new TextDecoder().decode(SHOP_CSV.bytes).replace('USD', 'JPY'))
  const imported = await importShop(store, [inYen])
  expect(imported).toMatchObject({ ok: false, problems: [{ code: 'conflict', field: 'currency', next }] })
  expect(await shopOrNeutral(store.db)).toEqual(shop)
})

test('a shop without any amount may change its currency, by the settings and by an import', async () => {
  const store = await temporaryStore()
  expect(await importShop(store, [SHOP_CSV])).toMatchObject({ ok: true })
  const shop = await shopOrNeutral(store.db)
  expect(await describeShop(store, { ...shop, policy: { ...shop.policy, currency: 'JPY' } })).toMatchObject({
    ok: true,
  })
  expect(await importShop(store, [SHOP_CSV])).toMatchObject({ ok: true })
  expect((await shopOrNeutral(store.db)).policy.currency).toBe('USD')
})
