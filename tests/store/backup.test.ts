import { chmod, copyFile, mkdir, readdir, readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { expect, test } from 'vitest'
import { customers, mails, sessions } from '../../db/schema.ts'
import { makeBackup } from '../../src/store/backupFiles.ts'
import { lookThrough, schemaVersionHere } from '../../src/store/databaseCopy.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { lookAtBackup, restore } from '../../src/store/restore.ts'
import { closeWhole } from './closeWhole.ts'
import { temporaryFolder } from './temporaryStore.ts'

const AT = '2026-06-12T08:00:00.000Z'
const LATER = '2026-06-13T08:00:00.000Z'

async function shopOf(names: number): Promise<{ folder: string; path: string; store: Store }> {
  const folder = await temporaryFolder()
  const path = join(folder, 'shop.db')
  const store = await openStore(`file:${path}`)
  await addCustomers(store, 0, names)
  return { folder, path, store }
}

const addCustomers = (store: Store, from: number, to: number) =>
  store.write(async (tx) => {
    for (let i = from; i < to; i++)
      await tx.insert(customers).values({ id: `C-${i}`, name: `Invented Person ${i}` })
  })

const namesIn = async (store: Store) => (await store.db.select().from(customers)).length

test('a backup under writes is whole, is the state of one instant, and is its owner’s alone', async () => {
  const { folder, path, store } = await shopOf(500)
  // Each write adds one customer and one machine of theirs; a copy that is no instant would have one without the other.
  let isOver = false
  const writing = (async () => {
    // The driver never waits, so without a pause nobody else has a turn.
    for (let i = 500; !isOver; i++, await new Promise((turn) => setImmediate(turn)))
      await store.write(async (tx) => {
        await tx.insert(customers).values({ id: `C-${i}`, name: `Invented Person ${i}` })
        await tx.run(sql`insert into machines (tag, customer_id) values (${`M-${i}`}, ${`C-${i}`})`)
      })
  })()
  const made = await makeBackup(path, join(folder, 'copies'), AT)
  isOver = true
  await writing
  await store.close()
  if (!made.ok) throw new Error(made.failure)
  expect(made.contents.rowsOf.customers).toBeGreaterThanOrEqual(500)
  expect(made.contents.rowsOf.customers).toBe(500 + (made.contents.rowsOf.machines ?? 0))
  expect(made.contents.schemaVersion).toBe(schemaVersionHere())
  expect((await stat(made.path)).mode & 0o777).toBe(0o600)
  expect(await readdir(join(folder, 'copies'))).toEqual(['stillfits-20260612T080000Z.db'])
})

test('nothing is written over, and what fails leaves nothing behind', async () => {
  const { folder, path, store } = await shopOf(1)
  await store.close()
  const first = await makeBackup(path, folder, AT)
  expect(first.ok).toBe(true)
  const bytes = await readFile(join(folder, 'stillfits-20260612T080000Z.db'))
  expect(await makeBackup(path, folder, AT)).toEqual({ ok: false, failure: 'is there already' })
  expect(await readFile(join(folder, 'stillfits-20260612T080000Z.db'))).toEqual(bytes)
  const noDatabase = join(folder, 'words.db')
  await writeFile(noDatabase, 'these are words and no database at all, and quite a lot of them '.repeat(99))
  expect(await makeBackup(noDatabase, folder, LATER)).toMatchObject({ ok: false, failure: 'not a database' })
  expect((await readdir(folder)).filter((name) => name.includes('.part'))).toEqual([])
})

test('a damaged copy is found', async () => {
  const { folder, path, store } = await shopOf(2000)
  await store.close()
  const made = await makeBackup(path, folder, AT)
  if (!made.ok) throw new Error(made.failure)
  const bytes = await readFile(made.path)
  // In the middle of the rows: the header still says that it is a database.
  bytes.fill(0x5a, Math.floor(bytes.length / 2), Math.floor(bytes.length / 2) + 8192)
  const hurt = join(folder, 'hurt.db')
  await writeFile(hurt, bytes)
  expect(await lookThrough(hurt)).toEqual({ ok: false, failure: 'damaged' })
  expect(await restore(hurt, path, LATER)).toEqual({ ok: false, failure: 'damaged' })
  const again = await openStore(`file:${path}`)
  expect(await namesIn(again)).toBe(2000)
  await again.close()
})

test('restore: what was there is kept beside, the backup is only read, mails on their way are held', async () => {
  const { folder, path: served, store } = await shopOf(3)
  await store.write(async (tx) => {
    const mail = {
      ...{
        kind: 'answer',
        state: 'approved',
        toName: 'x',
        toAddress: 'x@example.com',
        toKey: 'x@example.com',
      },
      ...{
        subject: 's',
        html: 'h',
        text: 't',
        rfcMessageId: '<1@example.com>',
        createdAt: AT,
        updatedAt: AT,
      },
    }
    await tx.insert(mails).values(mail)
    await tx.run(
      sql`insert into accounts (name, name_key, role, created_at) values ('Ada', 'ada', 'owner', ${AT})`,
    )
    await tx.insert(sessions).values({
      ...{ tokenHash: 'h', accountId: 1, createdAt: AT, seenAt: AT, expiresAt: LATER, addressHash: 'a' },
    })
  })
  const made = await makeBackup(served, join(folder, 'copies'), AT)
  if (!made.ok) throw new Error(made.failure)
  const before = await readFile(made.path)
  await addCustomers(store, 3, 10)
  // A program that has it open: nothing may change under it.
  expect(await restore(made.path, served, LATER)).toEqual({ ok: false, failure: 'in use' })
  expect(await namesIn(store)).toBe(10)
  // The driver lets go of a file when its memory is collected, so the rest is done with one that nobody opened here.
  await closeWhole(store)
  const path = join(folder, 'other', 'shop.db')
  await mkdir(join(folder, 'other'))
  await copyFile(served, path)
  expect(await lookAtBackup(made.path, path, LATER)).toMatchObject({
    ok: true,
    value: { rowsOf: { customers: 3 } },
  })
  const done = await restore(made.path, path, LATER)
  if (!done.ok) throw new Error(done.failure)
  expect(await readFile(made.path)).toEqual(before)
  const [now, then] = [await openStore(`file:${path}`), await openStore(`file:${done.keptAt}`)]
  expect([await namesIn(now), await namesIn(then)]).toEqual([3, 10])
  expect((await now.db.select().from(mails))[0]?.state).toBe('held')
  expect(await now.db.select().from(sessions)).toEqual([])
  await now.close()
  await then.close()
  expect((await readdir(join(folder, 'other'))).filter((name) => /restoring|look/.test(name))).toEqual([])
  expect(await restore(path, path, LATER)).toEqual({ ok: false, failure: 'the same file' })
  expect(await restore(join(folder, 'nowhere.db'), path, LATER)).toEqual({
    ok: false,
    failure: 'no such file',
  })
})

test('a database of a newer version is refused, one of another program too', async () => {
  const { folder, path, store } = await shopOf(1)
  await store.close()
  const newer = join(folder, 'newer.db')
  await copyFile(path, newer)
  const open = await openStore(`file:${newer}`)
  await open.db.run(sql`insert into __drizzle_migrations (hash, created_at) values ('x', 9999999999999)`)
  await open.close()
  expect(await restore(newer, path, LATER)).toMatchObject({ ok: false, failure: 'newer' })
  const empty = join(folder, 'empty.db')
  await writeFile(empty, '')
  expect(await restore(empty, path, LATER)).toEqual({ ok: false, failure: 'another program' })
})

test.skipIf(process.getuid?.() === 0)('a folder that cannot be written to is told', async () => {
  const { folder, path, store } = await shopOf(1)
  await store.close()
  await chmod(folder, 0o500)
  expect(await makeBackup(path, folder, AT)).toEqual({ ok: false, failure: 'cannot be written' })
  await chmod(folder, 0o700)
})
