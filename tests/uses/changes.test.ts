import { join } from 'node:path'
import { eq, sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { changes, customers, machines } from '../../db/schema.ts'
import { AUDITED, NOT_AUDITED, tableNames } from '../../src/store/changeTriggers.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { actingAs, exportChanges, forgetOldChanges, inSum, viewChanges } from '../../src/uses/changes.ts'
import { temporaryFolder, temporaryStore } from '../store/temporaryStore.ts'

test('every table was thought of, once', () => {
  expect([...Object.keys(AUDITED), ...Object.keys(NOT_AUDITED)].sort()).toEqual(tableNames())
})

test('who changed which fields of what is written down, and none of the values', async () => {
  const store = await temporaryStore()
  const id = 'C-1'
  await actingAs('Ada', () => store.write((tx) => tx.insert(customers).values({ id, name: 'Secret Person' })))
  await actingAs('key till', () =>
    store.write(async (tx) => {
      await tx.update(customers).set({ phone: '555 0100 77', note: 'a note' }).where(eq(customers.id, id))
      await tx.update(customers).set({ phone: '555 0100 77' }).where(eq(customers.id, id))
    }),
  )
  await store.write((tx) => tx.insert(machines).values({ tag: 'M-1', customerId: id }))
  await store.db.run(sql`delete from machines`)
  const { changes: found } = await viewChanges(store, {})
  expect(found.map(({ by, kind, record, what, fields }) => [by, kind, record, what, fields])).toEqual([
    [undefined, 'machines', 'M-1', 'removed', undefined],
    ['the program', 'machines', 'M-1', 'added', undefined],
    ['key till', 'customers', id, 'changed', 'phone,note'],
    ['Ada', 'customers', id, 'added', undefined],
  ])
  expect(JSON.stringify(await store.db.select().from(changes))).not.toMatch(/Secret|555|a note/)
})

test('what fails is not written down; rows cannot be changed', async () => {
  const store = await temporaryStore()
  await expect(
    store.write(async (tx) => {
      await tx.insert(customers).values({ id: 'C-1', name: 'x' })
      throw new RangeError('no')
    }),
  ).rejects.toThrow('no')
  expect((await viewChanges(store, {})).changes).toEqual([])
  await store.write((tx) => tx.insert(customers).values({ id: 'C-1', name: 'x' }))
  await expect(store.db.run(sql`update changes set by = 'somebody else'`)).rejects.toThrow()
})

test('an import is one line a table', async () => {
  const store = await temporaryStore()
  await inSum(() =>
    store.write(async (tx) => {
      for (let i = 0; i < 50; i++) await tx.insert(customers).values({ id: `C-${i}`, name: 'x' })
      await tx.update(customers).set({ phone: '1' })
      await tx.update(customers).set({ phone: '1' })
    }),
  )
  const { changes: found } = await viewChanges(store, {})
  expect(found.map(({ what, record, rows }) => [what, record, rows])).toEqual([
    ['changed', undefined, 50],
    ['added', undefined, 50],
  ])
})

test('search, pages, table, and what is old goes', async () => {
  const store = await temporaryStore()
  for (const by of ['Ada', 'Bo'])
    await actingAs(by, () =>
      store.write(async (tx) => {
        for (let i = 0; i < 60; i++) await tx.insert(customers).values({ id: `${by}-${i}`, name: 'x' })
      }),
    )
  const first = await viewChanges(store, {})
  expect(first.changes).toHaveLength(100)
  const second = await viewChanges(store, { before: String(first.olderThan) })
  expect(second.changes).toHaveLength(20)
  expect((await viewChanges(store, { by: 'B', record: 'Bo-5' })).changes).toHaveLength(11)
  expect((await viewChanges(store, { by: '%' })).changes).toEqual([])
  expect(await viewChanges(store, { kind: 'no such', from: 'yesterday' })).toMatchObject({
    unread: ['from', 'kind'],
  })
  expect((await viewChanges(store, { until: '2020-01-01' })).changes).toEqual([])
  const table = await exportChanges(store, { by: 'Bo' })
  expect(table.trimEnd().split('\r\n')).toHaveLength(61)
  await forgetOldChanges(store, '2099-01-01T00:00:00.000Z')
  expect((await viewChanges(store, {})).changes).toEqual([])
})

test('a table that was made anew gets its triggers back', async () => {
  const url = `file:${join(await temporaryFolder(), 'shop.db')}`
  const count = async (store: Store) =>
    (await store.db.all(sql`select 1 from sqlite_master where type = 'trigger' and name like 'audit%'`))
      .length
  const first = await openStore(url)
  const before = await count(first)
  expect(before).toBe(3 * Object.keys(AUDITED).length)
  const [one] = await first.db.all<{ name: string }>(
    sql`select name from sqlite_master where type = 'trigger' and name like 'audit_customers_added%'`,
  )
  await first.db.run(sql.raw(`drop trigger "${one?.name}"`))
  expect(await count(first)).toBe(before - 1)
  await first.close()
  const again = await openStore(url)
  expect(await count(again)).toBe(before)
  await again.close()
})
