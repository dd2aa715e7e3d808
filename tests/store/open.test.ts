import { access, chmod, readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { customers, machines, workPrices } from '../../db/schema.ts'
import { openStore } from '../../src/store/open.ts'
import { dump, temporaryFolder, temporaryStore } from './temporaryStore.ts'

test('a missing folder and file are made, and opening again keeps what is there', async () => {
  const file = join(await temporaryFolder(), 'not', 'yet', 'there', 'shop.db')
  const first = await openStore(`file:${file}`)
  await first.write((tx) => tx.insert(customers).values({ id: 'C1', name: 'Invented Person' }))
  const before = await dump(first)
  await first.close()
  await access(file)
  const second = await openStore(`file:${file}`)
  expect(await dump(second)).toEqual(before)
  expect(before.customers).toHaveLength(1)
  await second.close()
})

// SQLite's documentation, "SQLite Foreign Key Support" section 2 and "Write-Ahead Logging": both are per build or file.
test('foreign keys are checked and the log is written ahead', async () => {
  const store = await temporaryStore()
  expect(await store.db.get(sql`pragma foreign_keys`)).toMatchObject({ foreign_keys: 1 })
  expect(await store.db.get(sql`pragma journal_mode`)).toMatchObject({ journal_mode: 'wal' })
  const orphan = store.write((tx) => tx.insert(machines).values({ tag: 'M-1', customerId: 'nobody' }))
  await expect(orphan).rejects.toMatchObject({ code: 'SQLITE_CONSTRAINT_FOREIGNKEY' })
})

test('20 writes at once all land, one after the other', async () => {
  const store = await temporaryStore()
  await store.write((tx) => tx.insert(workPrices).values({ work: 'opening', minutes: 0, priceMinor: 0 }))
  await Promise.all(
    Array.from({ length: 20 }, () =>
      store.write(async (tx) => {
        const [row] = await tx.select().from(workPrices)
        await new Promise((done) => setTimeout(done, 2))
        await tx.update(workPrices).set({ priceMinor: (row?.priceMinor ?? 0) + 1 })
      }),
    ),
  )
  expect(await store.db.select().from(workPrices)).toMatchObject([{ priceMinor: 20 }])
})

test('a failed write keeps nothing and lets the next one through', async () => {
  const store = await temporaryStore()
  const failing = store.write(async (tx) => {
    await tx.insert(customers).values({ id: 'C1', name: 'Invented Person' })
    throw new RangeError('halfway')
  })
  await expect(failing).rejects.toThrow('halfway')
  await store.write((tx) => tx.insert(customers).values({ id: 'C2', name: 'Another Person' }))
  expect((await store.db.select().from(customers)).map((c) => c.id)).toEqual(['C2'])
})

test('after a refused statement the next writes land', async () => {
  const store = await temporaryStore()
  const add = (id: string) =>
    store.write((tx) => tx.insert(customers).values({ id, name: 'Invented Person' }))
  await add('C1')
  for (let i = 0; i < 3; i++)
    await expect(add('C1')).rejects.toMatchObject({ code: 'SQLITE_CONSTRAINT_PRIMARYKEY' })
  await add('C2')
  await add('C3')
  expect(await store.db.$count(customers)).toBe(3)
})

test('a write inside a write is refused before it can block', async () => {
  const store = await temporaryStore()
  await expect(store.write(() => store.write(async () => 1))).rejects.toThrow('pass the transaction along')
})

test('three stores opened at once on a new file all come up', async () => {
  const url = `file:${join(await temporaryFolder(), 'shop.db')}`
  const stores = await Promise.all([openStore(url), openStore(url), openStore(url)])
  for (const store of stores) expect(await store.db.select().from(customers)).toEqual([])
  for (const store of stores) await store.close()
})

test('a folder name with a space and an umlaut works', async () => {
  const file = join(await temporaryFolder(), 'der Läden', 'shop.db')
  const store = await openStore(`file:${file}`)
  await store.close()
  await access(file)
})

// SQLite, "Temporary Files Used By SQLite" tells of -wal and -shm; that they get the database's mode was seen here. POSIX modes.
test.skipIf(process.platform === 'win32')(
  'a new file and those beside it are readable by their owner alone',
  async () => {
    const folder = await temporaryFolder()
    const before = process.umask(0)
    try {
      const store = await openStore(`file:${join(folder, 'shop.db')}`)
      await store.write((tx) => tx.insert(customers).values({ id: 'C1', name: 'Invented Person' }))
      const files = (await readdir(folder)).sort()
      expect(files).toEqual(['shop.db', 'shop.db-shm', 'shop.db-wal'])
      for (const file of files)
        expect(((await stat(join(folder, file))).mode & 0o777).toString(8), file).toBe('600')
      await store.close()
    } finally {
      process.umask(before)
    }
  },
)

test.skipIf(process.platform === 'win32')('a file that is there keeps its mode', async () => {
  const file = join(await temporaryFolder(), 'shop.db')
  await (await openStore(`file:${file}`)).close()
  await chmod(file, 0o640)
  await (await openStore(`file:${file}`)).close()
  expect(((await stat(file)).mode & 0o777).toString(8)).toBe('640')
})
