import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { fittedParts } from '../../db/schema.ts'
import { listCustomers } from '../../src/store/customers.ts'
import { endWork, insertWork, startWork } from '../../src/store/longWork.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { insertSeats } from '../../src/store/roundSeats.ts'
import { insertRound, type RoundRow } from '../../src/store/rounds.ts'
import { insertWarranties } from '../../src/store/warranties.ts'
import { viewDay } from '../../src/uses/day.ts'
import { demoFile } from '../demo/preparedShop.ts'

const AT = '2026-11-24T15:00:00.000Z'
let folder: string
let store: Store
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-day-'))
  const file = join(folder, 'shop.db')
  await copyFile(await demoFile(), file)
  store = await openStore(`file:${file}`)
})
afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

test('a price is old by the shop’s own days, to the day', async () => {
  // fixtures/demo-shop/shelf.csv: priced on 31 August (3 items) and on 14 September (3), 85 and 71 days before; 12 October is 43.
  expect((await viewDay(store, AT)).stale).toBe(6)
  // 14 September to 13 November are 60 days: not old yet; a day later they are.
  expect((await viewDay(store, '2026-11-13T15:00:00.000Z')).stale).toBe(3)
  expect((await viewDay(store, '2026-11-14T15:00:00.000Z')).stale).toBe(6)
})

test('warranties that end within the month, of parts that are still in', async () => {
  const before = (await viewDay(store, AT)).warranties
  const machineTag = 'M-0203'
  const stays = await store.db.select().from(fittedParts)
  const inside = stays.find((stay) => stay.machineTag === machineTag && stay.removedAt === null)?.partId ?? ''
  const mine = new Set(stays.filter((stay) => stay.machineTag === machineTag).map(({ partId }) => partId))
  const elsewhere = stays.find(({ partId }) => !mine.has(partId))?.partId ?? ''
  const warranty = { machineTag, givenBy: 'shop', from: '2025-11-24T00:00:00.000Z' } as const
  await store.write((tx) =>
    insertWarranties(tx, [
      { ...warranty, partId: inside, until: '2026-12-24T14:00:00.000Z' },
      { ...warranty, partId: inside, until: '2026-12-24T16:00:00.000Z' },
      { ...warranty, partId: inside, until: '2026-11-24T14:00:00.000Z' },
      // Not in that machine.
      { ...warranty, partId: elsewhere, until: '2026-12-01T14:00:00.000Z' },
    ]),
  )
  const { warranties } = await viewDay(store, AT)
  expect(warranties).toHaveLength(before.length + 1)
  expect(warranties).toContainEqual({ machineTag, partId: inside, until: '2026-12-24T14:00:00.000Z' })
})

test('items that more could take than there are, by the last sharing out that was done', async () => {
  expect((await viewDay(store, AT)).wanted).toBeUndefined()
  const item = (itemId: string, couldGo: number, places: number) => ({
    itemId,
    partId: `P-${itemId}`,
    couldGo,
    places,
  })
  const items = [item('A', 9, 3), item('B', 3, 3), item('C', 12, 3), item('D', 8, 1), item('E', 7, 1)]
  await store.write(async (tx) => {
    const id = await insertWork(tx, { kind: 'match', ask: {}, askedAt: AT })
    await startWork(tx, id, {})
    await endWork(tx, id, { state: 'done', at: AT, result: { items } })
    await insertWork(tx, { kind: 'match', ask: {}, askedAt: AT })
  })
  expect((await viewDay(store, AT)).wanted?.items).toEqual([
    { itemId: 'C', partId: 'P-C', customers: 12 },
    { itemId: 'A', partId: 'P-A', customers: 9 },
    { itemId: 'D', partId: 'P-D', customers: 8 },
  ])
})

test('yeses to look at, and a deal whose date is over and about which nobody decided', async () => {
  const none = await viewDay(store, AT)
  expect([none.toSettle, none.dealsOver]).toEqual([[], []])
  const customers = (await listCustomers(store.db)).map(({ id }) => id)
  const round = (id: string, more: Partial<RoundRow>): RoundRow => ({
    ...{
      id,
      kind: 'shelf',
      state: 'going out',
      source: {},
      createdAt: AT,
      validUntil: '2026-12-08T15:00:00.000Z',
      yeses: 0,
    },
    ...more,
  })
  const rounds = [
    round('O-1', {}),
    round('O-2', { kind: 'deal', validUntil: AT }),
    round('O-3', { kind: 'deal', validUntil: '2026-11-24T15:00:00.001Z' }),
    round('O-4', { kind: 'deal', validUntil: AT, boughtPieces: 2 }),
    round('O-5', { kind: 'deal', validUntil: AT, state: 'called off' }),
  ]
  const standings = ['to settle', 'counted', 'counted', 'held'] as const
  await store.write(async (tx) => {
    for (const row of rounds) {
      await insertRound(tx, { ...row, items: [] })
      await insertSeats(
        tx,
        row.id,
        standings.map((standing, i) => ({ customerId: customers[i] ?? '', standing })),
      )
    }
  })
  const day = await viewDay(store, AT)
  expect(day.toSettle.map(({ roundId, yeses }) => [roundId, yeses])).toEqual(
    ['O-4', 'O-3', 'O-2', 'O-1'].map((id) => [id, 1]),
  )
  expect(day.dealsOver).toEqual([{ roundId: 'O-2', yeses: 2 }])
})
