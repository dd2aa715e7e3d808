import { eq } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { shelfItems } from '../../db/schema.ts'
import { freeMark } from '../../src/store/freeMark.ts'
import type { Store } from '../../src/store/open.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { tablesOf } from '../demo/tables.ts'
import { unwrapped } from '../uses/jobs/jobShop.ts'
import { temporaryStore } from './temporaryStore.ts'

const AT = '2026-06-01T12:00:00.000Z'

test('the mark of an empty shelf is no text, and it changes with pieces, price and place of an item, not with a date', async () => {
  const store: Store = await temporaryStore()
  expect(await freeMark(store.db)).toBe('\n')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
  const [item] = await store.db.select().from(shelfItems)
  if (item === undefined) throw new Error('the invented shop has a shelf')
  const set = (values: Partial<typeof shelfItems.$inferInsert>) =>
    store.write((tx) => tx.update(shelfItems).set(values).where(eq(shelfItems.id, item.id)))
  const first = await freeMark(store.db)
  for (const [changed, back] of [
    [{ quantity: item.quantity + 1 }, { quantity: item.quantity }],
    [{ priceMinor: item.priceMinor + 1 }, { priceMinor: item.priceMinor }],
    [{ removedAt: AT }, { removedAt: null }],
  ] as const) {
    await set(changed)
    expect(await freeMark(store.db)).not.toBe(first)
    await set(back)
    expect(await freeMark(store.db)).toBe(first)
  }
  await set({ pricedAt: AT })
  expect(await freeMark(store.db)).toBe(first)
})
