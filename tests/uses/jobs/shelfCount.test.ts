import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listShelfItems } from '../../../src/store/shelf.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { viewShelf } from '../../../src/uses/views.ts'
import { tablesOf } from '../../demo/tables.ts'
import { dump } from '../../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, refusals, shopFile, stockOf, unwrapped } from './jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

const HEAD = 'item,part,condition,quantity,price,priced_on'
const csv = (name: string, ...lines: string[]) => ({
  name,
  bytes: new TextEncoder().encode(lines.join('\n')),
})

async function withJob() {
  const { store } = await copyOf(file)
  const option = await optionWith(store, 'Q-0301', ['S-601'])
  unwrapped(await agreeJob(store, 'Q-0301', option.id, { fittedBy: 'shop' }, AT))
  return store
}

test('the shelf page tells how many stand there, how many are free, and for which job the rest is', async () => {
  const store = await withJob()
  const line = (await viewShelf(store)).items.find(({ item }) => item.id === 'S-601')
  expect(line).toMatchObject({
    standing: 3,
    item: { quantity: 2 },
    putAside: [{ jobId: 'J-0001', quantity: 1 }],
  })
})

test('the same folder again changes nothing: what is put aside still stands on the shelf', async () => {
  const store = await withJob()
  const before = await dump(store)
  unwrapped(await importShop(store, await tablesOf('demo-shop'), later(1)))
  expect(await dump(store)).toEqual(before)
})

test('a count below what is put aside is refused with the job’s name; one at it is taken', async () => {
  const store = await withJob()
  const before = await dump(store)
  const row = (n: number) => csv('shelf.csv', HEAD, `S-601,CRD-SPOKESHAVE8,new,${n},194.00,2026-11-09`)
  expect(refusals(await importShop(store, [row(0)], later(1))).join()).toMatch(
    /shelf\.csv, line 2.*1 of S-601 put aside for J-0001/,
  )
  expect(await dump(store)).toEqual(before)
  unwrapped(await importShop(store, [row(1)], later(2)))
  expect(await stockOf(store, 'S-601')).toEqual({ standing: 1, held: 1, free: 0 })
})

test('what ends a warranty comes in with the shelf, and a file without the column leaves it', async () => {
  const { store } = await copyOf(file)
  const row = 'S-602,CRD-BRADAWL6,used,1,129.00,2026-10-26'
  const noted = csv('shelf.csv', `${HEAD},warranty_months,warranty_ends_with`, `${row},3,a broken seal`)
  const endOf = async () =>
    (await listShelfItems(store.db)).find(({ id }) => id === 'S-602')?.warrantyEndsWith
  unwrapped(await importShop(store, [noted], later(1)))
  expect(await endOf()).toBe('a broken seal')
  unwrapped(await importShop(store, [csv('shelf.csv', HEAD, row)], later(2)))
  expect(await endOf()).toBe('a broken seal')
  unwrapped(await importShop(store, [csv('shelf.csv', `${HEAD},warranty_ends_with`, `${row},`)], later(3)))
  expect(await endOf()).toBeUndefined()
})
