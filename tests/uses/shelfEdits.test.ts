import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { partFromWords } from '../../src/core/naming/partFromWords.ts'
import { findAnything } from '../../src/store/findAnything.ts'
import type { Store } from '../../src/store/open.ts'
import { loadParts } from '../../src/store/parts.ts'
import { listShelf, putBackOnShelf, shelfPricesOf } from '../../src/store/shelf.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { exportTable } from '../../src/uses/exportShop.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import {
  changeShelfItem,
  type ItemTyped,
  putOnShelf,
  takeOffShelf,
  undoShelfEdit,
} from '../../src/uses/shelfEdits.ts'
import { viewShelfItem } from '../../src/uses/shelfItem.ts'
import { dumpWithoutLog } from '../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, refusals, shopFile, stockOf, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

// The invented shop (fixtures/demo-shop/shelf.csv): S-601 is a new card, 3 of them, 194.00 since November 9.
const typedOf = async (store: Store, id: string): Promise<ItemTyped & { at?: string }> => {
  const { item, standing } = unwrapped(await viewShelfItem(store, id))
  const { id: _, partId: __, at: ___, ...typed } = item
  return { ...typed, quantity: standing }
}
const itemIn = async (store: Store, id: string) => unwrapped(await viewShelfItem(store, id))
const fileOf = (text: string) => [{ name: 'shelf.csv', bytes: new TextEncoder().encode(text) }]
const pricesOf = async (store: Store, id: string) =>
  (await shelfPricesOf(store.db, id)).map(({ priceMinor }) => priceMinor)

test('an item that is put on the shelf is in the next answer, as after an import, and gone again once it is undone', async () => {
  const { store } = await copyOf(file)
  const before = unwrapped(await answerQuestion(store, 'Q-0301', AT))
  const typed = { condition: 'used tested', quantity: 2, priceMinor: 9_900 } as const
  const put = unwrapped(await putOnShelf(store, { partId: 'CRD-SPOKESHAVE8' }, typed, later(1)))
  const inAnswer = async () =>
    unwrapped(await answerQuestion(store, 'Q-0301', later(2))).inputs.shelf.filter(({ id }) => id === put.id)
  expect(before.inputs.shelf.map(({ id }) => id)).not.toContain(put.id)
  expect(await inAnswer()).toMatchObject([{ partId: 'CRD-SPOKESHAVE8', quantity: 2, priceMinor: 9_900 }])
  expect(await pricesOf(store, put.id)).toEqual([9_900])
  const undone = unwrapped(await undoShelfEdit(store, put.id, put.editId ?? '', later(3)))
  expect(undone).toMatchObject({ isOff: true })
  expect(await inAnswer()).toEqual([])
  expect((await listShelf(store.db)).map(({ item }) => item.id)).not.toContain(put.id)
})

test('an answer after a page changed the shelf is the very one after an import of the same rows', async () => {
  const [byPage, byFile] = [(await copyOf(file, 'a.db')).store, (await copyOf(file, 'b.db')).store]
  const typed = await typedOf(byPage, 'S-601')
  unwrapped(
    await changeShelfItem(byPage, 'S-601', { typed: { ...typed, priceMinor: 15_000, quantity: 1 } }, AT),
  )
  const text = unwrapped(await exportTable(byPage, 'shelf')).text
  unwrapped(await importShop(byFile, fileOf(text), AT))
  const answers = await Promise.all(
    [byPage, byFile].map(async (store) => unwrapped(await answerQuestion(store, 'Q-0301', later(1)))),
  )
  expect(answers[0]?.inputs.shelf).toEqual(answers[1]?.inputs.shelf)
  expect(answers[0]?.ranking).toEqual(answers[1]?.ranking)
  expect(await pricesOf(byPage, 'S-601')).toEqual(await pricesOf(byFile, 'S-601'))
})

test('a part that is new to the shop is kept with the item, with no figure but what was given', async () => {
  const { store } = await copyOf(file)
  const newPart = partFromWords('memory', 'NEW', 'Ledger kit 2x8GB').part
  const typed = { condition: 'used', quantity: 1, priceMinor: 2_500 } as const
  const { id } = unwrapped(await putOnShelf(store, { newPart }, typed, AT))
  const { part } = await itemIn(store, id)
  expect(part).toEqual({ ...newPart, id: part.id })
  expect(part.id).not.toBe('NEW')
  // The same again is one part on record already; nothing is half kept.
  const before = await dumpWithoutLog(store)
  expect(refusals(await putOnShelf(store, { newPart }, typed, AT)).join()).toMatch(part.id)
  for (const name of ['none', '?', 'n/a'])
    expect(refusals(await putOnShelf(store, { newPart: { ...newPart, name } }, typed, AT))).toHaveLength(1)
  expect(refusals(await putOnShelf(store, { partId: 'P-NOBODY' }, typed, AT))).toHaveLength(1)
  const tomorrow = { ...typed, at: '2026-11-26T18:00:00.000Z' }
  expect(
    refusals(await putOnShelf(store, { newPart: { ...newPart, name: 'Other kit' } }, tomorrow, AT)),
  ).toHaveLength(1)
  expect(await dumpWithoutLog(store)).toEqual(before)
})

test('each price is kept; undoing one puts the earlier price back from today, and no row of the history goes', async () => {
  const { store } = await copyOf(file)
  const typed = await typedOf(store, 'S-601')
  const old = await pricesOf(store, 'S-601')
  const first = unwrapped(await changeShelfItem(store, 'S-601', { typed: { ...typed, priceMinor: 1 } }, AT))
  const { note: _, ...withoutNote } = typed
  const second = unwrapped(
    await changeShelfItem(
      store,
      'S-601',
      { typed: { ...withoutNote, priceMinor: 1, note: 'box torn' } },
      later(1),
    ),
  )
  unwrapped(await undoShelfEdit(store, 'S-601', first.editId ?? '', later(2)))
  // What somebody else wrote meanwhile stays.
  expect((await itemIn(store, 'S-601')).item).toMatchObject({
    priceMinor: typed.priceMinor,
    note: 'box torn',
  })
  expect(await pricesOf(store, 'S-601')).toEqual([...old, 1, typed.priceMinor])
  unwrapped(await undoShelfEdit(store, 'S-601', second.editId ?? '', later(3)))
  expect((await itemIn(store, 'S-601')).item.note).toBeUndefined()
  // The first cannot be taken back once more: the price is not that of it any more.
  expect(refusals(await undoShelfEdit(store, 'S-601', first.editId ?? '', later(4)))).toHaveLength(1)
  expect(refusals(await undoShelfEdit(store, 'S-601', '999', later(4)))).toHaveLength(1)
})

test('a note alone keeps the day of the price; another price is one of today, and none of before the present one', async () => {
  const { store } = await copyOf(file)
  const typed = await typedOf(store, 'S-601')
  const { at } = (await itemIn(store, 'S-601')).item
  unwrapped(await changeShelfItem(store, 'S-601', { typed: { ...typed, note: 'top shelf' } }, AT))
  expect((await itemIn(store, 'S-601')).item.at).toBe(at)
  expect(
    unwrapped(await changeShelfItem(store, 'S-601', { typed: { ...typed, note: 'top shelf' } }, AT)),
  ).toEqual({
    id: 'S-601',
  })
  const early = { ...typed, priceMinor: 1, at: '2026-11-01T18:00:00.000Z' }
  expect(refusals(await changeShelfItem(store, 'S-601', { typed: early }, AT)).join()).toMatch(/2026-11-09/)
  unwrapped(await changeShelfItem(store, 'S-601', { typed: { ...typed, priceMinor: 18_000 } }, AT))
  expect((await itemIn(store, 'S-601')).item.at.slice(0, 10)).toBe('2026-11-24')
})

test('what is put aside for a job is neither taken off nor another thing; what is free goes', async () => {
  const { store } = await copyOf(file)
  const option = await optionWith(store, 'Q-0301', ['S-601'])
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', option.id, { fittedBy: 'shop' }, AT))
  const typed = await typedOf(store, 'S-601')
  const before = await dumpWithoutLog(store)
  const refused = [
    await takeOffShelf(store, 'S-601', { pieces: 3, because: 'sold' }, AT),
    await takeOffShelf(store, 'S-601', { pieces: 0, because: 'sold' }, AT),
    await changeShelfItem(store, 'S-601', { typed: { ...typed, quantity: 0 } }, AT),
    await changeShelfItem(store, 'S-601', { typed: { ...typed, condition: 'used' } }, AT),
  ]
  expect(refused.map((one) => (one.ok ? 'done' : one.problems.map(({ field }) => field).join()))).toEqual([
    'pieces',
    'pieces',
    'quantity',
    'condition',
  ])
  for (const i of [0, 2, 3]) expect(refusals(refused[i] as (typeof refused)[0]).join()).toContain(jobId)
  expect(await dumpWithoutLog(store)).toEqual(before)
  const off = unwrapped(await takeOffShelf(store, 'S-601', { pieces: 2, because: 'sold' }, AT))
  expect(off.isOff).toBeUndefined()
  expect(await stockOf(store, 'S-601')).toEqual({ standing: 1, held: 1, free: 0 })
  unwrapped(await undoShelfEdit(store, 'S-601', off.editId ?? '', later(1)))
  expect(await stockOf(store, 'S-601')).toEqual({ standing: 3, held: 1, free: 2 })
})

test('the last piece takes the item off every list; undo, a piece that comes back and an import bring it back', async () => {
  const { store } = await copyOf(file)
  const isListed = async () => (await listShelf(store.db)).some(({ item }) => item.id === 'S-602')
  const isFound = async () =>
    (await findAnything(store.db, { text: 'S-602', keys: [], most: 5 })).item.length > 0
  const off = async () =>
    unwrapped(await takeOffShelf(store, 'S-602', { pieces: 1, because: 'wrong entry' }, AT))
  const there = [await isListed(), await isFound()]
  const csv = unwrapped(await exportTable(store, 'shelf')).text
  const first = await off()
  expect(first.isOff).toBe(true)
  const gone = [await isListed(), await isFound()]
  expect(await itemIn(store, 'S-602')).toMatchObject({ standing: 0, removedAt: AT })
  const typed = await typedOf(store, 'S-602')
  expect(refusals(await changeShelfItem(store, 'S-602', { typed }, AT))).toHaveLength(1)
  unwrapped(await undoShelfEdit(store, 'S-602', first.editId ?? '', later(1)))
  const undone = [await isListed(), await isFound()]
  await off()
  await store.write((tx) => putBackOnShelf(tx, 'S-602', 1))
  const putBack = [await isListed(), await isFound()]
  await off()
  // A table from before it was taken off has one of it.
  unwrapped(await importShop(store, fileOf(csv), later(2)))
  expect([there, gone, undone, putBack, [await isListed(), await isFound()]]).toEqual([
    [true, true],
    [false, false],
    [true, true],
    [true, true],
    [true, true],
  ])
})

test('of two people at once the second is told, and nothing of the first is lost', async () => {
  const { store } = await copyOf(file)
  const { mark } = await itemIn(store, 'S-601')
  const typed = await typedOf(store, 'S-601')
  unwrapped(await changeShelfItem(store, 'S-601', { typed: { ...typed, note: 'first' }, seen: mark }, AT))
  const before = await dumpWithoutLog(store)
  const second = await changeShelfItem(
    store,
    'S-601',
    { typed: { ...typed, note: 'second' }, seen: mark },
    AT,
  )
  const third = await takeOffShelf(store, 'S-601', { pieces: 1, because: 'sold', seen: mark }, AT)
  for (const told of [second, third])
    expect(told).toMatchObject({ ok: false, problems: [{ code: 'conflict', field: 'item' }] })
  expect(await dumpWithoutLog(store)).toEqual(before)
  const now = await itemIn(store, 'S-601')
  unwrapped(
    await changeShelfItem(store, 'S-601', { typed: { ...typed, note: 'second' }, seen: now.mark }, later(1)),
  )
  expect((await itemIn(store, 'S-601')).edits.map(({ after }) => after.item.note)).toEqual([
    'first',
    'second',
  ])
})

test('the part of an item that went is still on record', async () => {
  const { store } = await copyOf(file)
  unwrapped(await takeOffShelf(store, 'S-602', { pieces: 1, because: 'scrapped' }, AT))
  expect(await loadParts(store.db, ['CRD-BRADAWL6'])).toHaveLength(1)
})
