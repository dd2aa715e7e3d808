import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { upsertCustomers } from '../../src/store/customers.ts'
import { endLabels, insertLabel } from '../../src/store/labels.ts'
import { upsertMachines } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { type Found, findThings, type HitKind } from '../../src/uses/findAnything.ts'
import { takeOutRun } from '../../src/uses/runs/changeRun.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'
import { AT, copyOf, shopFile } from './jobs/jobShop.ts'

/* In the invented shop: what is typed, and what a person would mean by it. */

let store: Store
let close: () => Promise<void>
beforeAll(async () => {
  ;({ store, close } = await copyOf(await shopFile(await temporaryFolder())))
}, 120_000)
afterAll(() => close?.())

const idsOf = ({ hits }: Found, kind: HitKind) => hits[kind].map(({ id }) => id)
const find = (typed: string, most = 9) => findThings(store, typed, most)

describe('one thing alone is called so', () => {
  test.each([
    ['its tag', 'M-0207', 'machine', 'M-0207'],
    ['its tag in small letters, with space around it', ' m-0207 ', 'machine', 'M-0207'],
    ['its number alone', '207', 'machine', 'M-0207'],
    ['its number with noughts', '0207', 'machine', 'M-0207'],
    ['a question by its key', 'q-0301', 'question', 'Q-0301'],
  ] as const)('%s', async (_, typed, kind, id) => {
    expect((await find(typed)).exact).toEqual([{ kind, id }])
  })

  test('the code on a case label leads to its machine, also as the address in its QR code; an ended one does not', async () => {
    const code = '0123456789ABCDEF'
    await store.write((tx) => insertLabel(tx, code, 'M-0207', AT))
    expect((await find(`https://shop.example/l/${code}`)).exact).toEqual([{ kind: 'machine', id: 'M-0207' }])
    expect((await find(code)).exact).toEqual([{ kind: 'machine', id: 'M-0207' }])
    await store.write((tx) => endLabels(tx, 'M-0207', AT))
    expect((await find(code)).exact).toEqual([])
  })
})

test('an owner’s name, in any case, finds them, their machine and what they asked', async () => {
  const found = await find('MARCHBANK')
  expect(idsOf(found, 'customer')).toEqual(['C-101'])
  expect(idsOf(found, 'machine')).toEqual(['M-0207'])
  expect(idsOf(found, 'question')).toContain('Q-0301')
  expect(found.exact).toEqual([])
  expect((await find('odile marchbank')).exact).toEqual([{ kind: 'customer', id: 'C-101' }])
  expect((await find('ODILE@example.com')).exact).toEqual([{ kind: 'customer', id: 'C-101' }])
})

test('a piece of a name finds parts and where they stand on the shelf; a title by its name', async () => {
  const found = await find('spokeshave')
  expect(idsOf(found, 'item')).toContain('S-601')
  expect(idsOf(found, 'part')).toContain('CRD-SPOKESHAVE8')
  expect((await find('saffron relay')).exact).toEqual([{ kind: 'title', id: 'saffron' }])
})

test('a run is found until it is taken out', async () => {
  expect((await find('r-0001')).exact).toEqual([{ kind: 'run', id: 'R-0001' }])
  await takeOutRun(store, 'R-0001', AT)
  expect(idsOf(await find('R-0001'), 'run')).toEqual([])
})

test.each(['*', '[a-z', '%', '?', "' or 1=1 --", '\\'])('%s is looked for as it is typed', async (typed) => {
  const { hits } = await find(typed)
  for (const hit of Object.values(hits).flat())
    expect(`${hit.id} ${hit.name} ${hit.beside}`.toLowerCase()).toContain(typed)
})

test('a kind is cut where it was asked to be, and what is exactly called so is among it', async () => {
  const many = Array.from({ length: 40 }, (_, i) => ({ id: `cut-${i}`, name: `Aaa Berge ${i}` }))
  await store.write((tx) => upsertCustomers(tx, [...many, { id: 'cut-x', name: 'Berge' }]))
  await store.write((tx) =>
    upsertMachines(
      tx,
      [...many, { id: 'cut-x' }].map(({ id }, i) => ({
        tag: `M-77${String(i).padStart(2, '0')}`,
        customerId: id,
      })),
    ),
  )
  const found = await find('Berge', 5)
  expect(found.hits.customer).toHaveLength(5)
  expect(found.hits.machine).toHaveLength(5)
  expect(idsOf(found, 'machine')).toContain('M-7740')
  expect(found.exact).toEqual([{ kind: 'customer', id: 'cut-x' }])
})
