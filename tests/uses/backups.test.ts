import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { takeLease } from '../../src/store/backups.ts'
import { StoreFault } from '../../src/store/errors.ts'
import { openStore } from '../../src/store/open.ts'
import { backUp, backUpAsPlanned, backUpWhenDue, viewBackups } from '../../src/uses/backups.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'

async function shop() {
  const folder = await temporaryFolder()
  const databasePath = join(folder, 'shop.db')
  const copies = join(folder, 'copies')
  const settings = { databasePath, folder: copies, hour: 3, keep: 2, warnDays: 3 }
  return { copies, settings, databasePath }
}

test('one is made when it is due and not twice; rotation keeps the newest and says which went', async () => {
  const { copies, settings, databasePath } = await shop()
  const store = await openStore(`file:${databasePath}`)
  const days = ['2026-06-10', '2026-06-11', '2026-06-12', '2026-06-13']
  for (const day of days) {
    expect(await backUpWhenDue(store, settings, 'a', `${day}T03:00:00.000Z`)).toMatchObject({ ok: true })
    expect(await backUpWhenDue(store, settings, 'a', `${day}T04:00:00.000Z`)).toBeUndefined()
  }
  expect((await readdir(copies)).sort()).toEqual([
    'stillfits-20260612T030000Z.db',
    'stillfits-20260613T030000Z.db',
  ])
  const view = await viewBackups(store, settings, '2026-06-13T05:00:00.000Z')
  expect(view.lines.map((b) => [b.at.slice(0, 10), b.isThere, b.removedAt !== undefined])).toEqual([
    ['2026-06-13', true, false],
    ['2026-06-12', true, false],
    ['2026-06-11', false, true],
    ['2026-06-10', false, true],
  ])
  expect(view).toMatchObject({ isOld: false, sameDisk: true, nextAt: '2026-06-14T03:00:00.000Z' })
  expect((await viewBackups(store, settings, '2026-06-16T03:00:00.000Z')).isOld).toBe(true)
  await store.close()
})

test('of two processes one makes it, the other is told; a lease that ran out is anybody’s', async () => {
  const { settings, databasePath } = await shop()
  const store = await openStore(`file:${databasePath}`)
  const at = '2026-06-12T03:00:00.000Z'
  const lease = { id: 'another process', until: '2026-06-12T03:30:00.000Z' }
  expect(await store.write((tx) => takeLease(tx, 'backup', lease, at))).toBe(true)
  expect(await backUpAsPlanned(store, settings, 'a', at)).toMatchObject({
    ok: false,
    problems: [{ code: 'busy' }],
  })
  expect(await store.write((tx) => takeLease(tx, 'backup', lease, at))).toBe(true)
  expect(await backUpAsPlanned(store, settings, 'a', '2026-06-12T03:30:00.001Z')).toMatchObject({ ok: true })
  await store.close()
})

test('from a disk that cannot be written any more a copy is made all the same', async () => {
  const { copies, settings, databasePath } = await shop()
  const store = await openStore(`file:${databasePath}`)
  const readOnly = {
    ...store,
    write: () => Promise.reject(new StoreFault('SQLITE_READONLY', 'x', undefined)),
  }
  expect(await backUp(readOnly, settings, copies, '2026-06-12T03:00:00.000Z')).toMatchObject({ ok: true })
  expect(await readdir(copies)).toEqual(['stillfits-20260612T030000Z.db'])
  await store.close()
})
