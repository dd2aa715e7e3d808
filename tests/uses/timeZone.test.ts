import { expect, test } from 'vitest'
import { dayOf, sameDayIn } from '../../src/input/dates.ts'
import type { Store } from '../../src/store/open.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { describeShop, shopOrNeutral } from '../../src/uses/shop.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { filesOf, SMALL_SHOP, withCell } from '../input/smallShop.ts'
import { dumpWithoutLog, temporaryStore } from '../store/temporaryStore.ts'

const WEST = 'Pacific/Honolulu' // UTC-10
const EAST = 'Pacific/Kiritimati' // UTC+14: noon there is noon of the day before in Honolulu (IANA time zone database)
const ASKED = '2026-03-02T09:15:12.345Z'

async function shopIn(timeZone: string): Promise<Store> {
  const store = await temporaryStore()
  expect(await importShop(store, filesOf(withCell('shop', 1, 'time_zone', timeZone)))).toMatchObject({
    ok: true,
  })
  return store
}

const INSTANT = /^\d{4}-\d{2}-\d{2}T.*Z$/

/** Every stored instant as the day that is shown. */
async function daysOf(store: Store): Promise<(string | undefined)[]> {
  const { timeZone } = await shopOrNeutral(store.db)
  return Object.values(await dumpWithoutLog(store))
    .flat(2)
    .flatMap((cell) => (typeof cell === 'string' && INSTANT.test(cell) ? [dayOf(cell, timeZone)] : []))
}

test.each([
  [EAST, WEST],
  [WEST, EAST],
  ['Pacific/Auckland', 'America/Chicago'],
])('days stay the same days when the settings go from %s to %s', async (from, to) => {
  const store = await shopIn(from)
  const before = await daysOf(store)
  expect(before.length).toBeGreaterThan(10)
  const shop = await shopOrNeutral(store.db)
  expect(await describeShop(store, { ...shop, timeZone: to })).toMatchObject({ ok: true })
  expect(await daysOf(store)).toEqual(before)
})

test.each([
  [EAST, WEST],
  [WEST, EAST],
])('days stay the same days when an import takes the shop from %s to %s', async (from, to) => {
  const store = await shopIn(from)
  const before = await daysOf(store)
  const { shop = [] } = withCell('shop', 1, 'time_zone', to)
  expect(await importShop(store, filesOf({ shop }))).toMatchObject({ ok: true })
  expect(await daysOf(store)).toEqual(before)
  const again = await importShop(store, filesOf({ ...SMALL_SHOP, shop }))
  const tables = again.ok ? again.value.tables : []
  expect(tables.length).toBeGreaterThan(10)
  for (const table of tables) expect(table).toMatchObject({ added: 0, changed: 0 })
  expect(await daysOf(store)).toEqual(before)
})

test('a refused import moves nothing', async () => {
  const store = await shopIn(EAST)
  const before = await dumpWithoutLog(store)
  const { shop = [] } = withCell('shop', 1, 'time_zone', WEST)
  const { runs = [] } = withCell('runs', 2, 'average_fps', '12O')
  expect(await importShop(store, filesOf({ shop, runs }))).toMatchObject({ ok: false })
  expect(await dumpWithoutLog(store)).toEqual(before)
})

test('an instant that is no day stays that instant', async () => {
  const store = await shopIn(EAST)
  const question = {
    ...{
      machineTag: 'M-0001',
      words: 'x',
      wanted: [{ titleId: 'harbor', settingId: '1080-high', weight: 1 }],
      wishes: [],
      display: {},
      targetFps: 60,
    },
    ...({ asks: 'what can I do', cameBy: 'mail' } as const),
  }
  expect(await takeQuestion(store, question, ASKED)).toMatchObject({ ok: true })
  const shop = await shopOrNeutral(store.db)
  await describeShop(store, { ...shop, timeZone: WEST })
  expect(Object.values(await dumpWithoutLog(store)).flat(2)).toContain(ASKED)
  expect(sameDayIn(WEST, EAST)(ASKED)).toBe(ASKED)
})
