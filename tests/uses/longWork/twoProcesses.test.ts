import { join } from 'node:path'
import { expect, test } from 'vitest'
import { takeLease } from '../../../src/store/backups.ts'
import { insertWork, loadWork } from '../../../src/store/longWork.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { type LongWork, longWorkOf } from '../../../src/uses/longWork/longWork.ts'
import { TWO } from '../../core/reach/twoPlatforms.ts'
import { temporaryFolder } from '../../store/temporaryStore.ts'

const AT = '2026-11-24T15:00:00.000Z'

/** Two programs on one database; what each loaded tells which of them did the work. */
async function twoOn(): Promise<{ stores: Store[]; works: LongWork[]; loadedBy: number[] }> {
  const url = `file:${join(await temporaryFolder(), 'shop.db')}`
  const stores = [await openStore(url), await openStore(url)]
  const loadedBy: number[] = []
  const works = stores.map((store, i) =>
    longWorkOf(store, {
      reach: async () => {
        loadedBy.push(i)
        return TWO
      },
    }),
  )
  return { stores, works, loadedBy }
}

test('two processes look for what is to be done: one does it, and it is done once', async () => {
  const { stores, works, loadedBy } = await twoOn()
  const [first] = stores
  if (first === undefined) throw new Error('no store')
  const id = await first.write((tx) => insertWork(tx, { kind: 'reach', ask: {}, askedAt: AT }))
  for (const work of works) work.goOn(() => AT)
  for (const work of works) await work.idle()
  expect(loadedBy).toHaveLength(1)
  expect((await loadWork(first.db, id))?.state).toBe('done')
  for (const work of works) work.halt()
  for (const store of stores) await store.close()
})

test('what a killed process had is taken up after its lease, and not before', async () => {
  const { stores, works, loadedBy } = await twoOn()
  const [first] = stores
  const [work] = works
  if (first === undefined || work === undefined) throw new Error('no store')
  const id = await first.write((tx) => insertWork(tx, { kind: 'reach', ask: {}, askedAt: AT }))
  const until = '2026-11-24T15:01:00.000Z'
  await first.write((tx) => takeLease(tx, `long work ${id}`, { id: 'the killed one', until }, AT))
  let now = '2026-11-24T15:00:30.000Z'
  work.goOn(() => now)
  await work.idle()
  expect(loadedBy).toEqual([])
  expect((await loadWork(first.db, id))?.state).toBe('waiting')
  now = '2026-11-24T15:01:01.000Z'
  work.goOn(() => now)
  await work.idle()
  expect(loadedBy).toEqual([0])
  expect((await loadWork(first.db, id))?.state).toBe('done')
  for (const one of works) one.halt()
  for (const store of stores) await store.close()
})
