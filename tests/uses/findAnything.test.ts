import { eq } from 'drizzle-orm'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { shelfItems } from '../../db/schema.ts'
import { upsertCustomers } from '../../src/store/customers.ts'
import { endLabels, insertLabel } from '../../src/store/labels.ts'
import { insertWork } from '../../src/store/longWork.ts'
import { upsertMachines } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { insertMail } from '../../src/store/outbox.ts'
import { insertRound } from '../../src/store/rounds.ts'
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

describe('rounds, mails and plans', () => {
  /** Of thirty mails, the oldest first. */
  const mailIds: string[] = []
  beforeAll(async () => {
    const [item] = await store.db.select().from(shelfItems).where(eq(shelfItems.id, 'S-601'))
    if (item === undefined) throw new Error('the invented shop has a shelf')
    await store.write(async (tx) => {
      const round = (id: string) => ({
        ...{ id, kind: 'shelf' as const, state: 'going out' as const, source: {}, yeses: 0 },
        ...{ createdAt: AT, validUntil: AT },
      })
      await insertRound(tx, { ...round('O-8001'), items: [{ itemId: 'S-601', quantity: 1 }] })
      await insertRound(tx, { ...round('O-8002'), items: [] })
      for (let n = 0; n < 30; n++)
        mailIds.push(
          await insertMail(
            tx,
            {
              ...{ kind: 'received', toName: 'Zora Quill', toAddress: `zora${n}@example.org` },
              ...{ subject: n === 7 ? 'Würzig: what fits' : 'What your board takes' },
              ...{
                html: '<p>An unseen word</p>',
                text: 'An unseen word',
                rfcMessageId: `<zora${n}@example.org>`,
              },
            },
            AT,
          ),
        )
      await insertWork(tx, { kind: 'reach', name: 'Quiet office boards', askedAt: AT, ask: {} })
      await insertWork(tx, { kind: 'match', name: 'Quiet shelf', askedAt: AT, ask: {} })
      await insertWork(tx, { kind: 'reach', name: undefined, askedAt: AT, ask: {} })
    })
  })
  test.each([
    ['a round by its key', 'o-8002', 'round', ['O-8002']],
    ['a round by what it gives away', 'spokeshave', 'round', ['O-8001']],
    ['a plan by its name; another work of such a name is no plan', 'quiet', 'plan', [expect.any(String)]],
    ['no mail by its text', 'unseen', 'mail', []],
  ] as const)('%s', async (_, typed, kind, ids) => {
    expect(idsOf(await find(typed), kind)).toEqual(ids)
  })
  test('a mail by its subject in any case, and by the address it is to; not by the number that nobody sees', async () => {
    expect(idsOf(await find('WÜRZIG'), 'mail')).toEqual([mailIds[7]])
    expect(idsOf(await find('zora12@'), 'mail')).toEqual([mailIds[12]])
    expect((await find(mailIds[12] ?? '')).exact).not.toContainEqual(
      expect.objectContaining({ kind: 'mail' }),
    )
  })
  test('mails of a name come newest first, cut where it was asked', async () => {
    expect(idsOf(await find('quill', 4), 'mail')).toEqual(mailIds.slice(-4).reverse())
  })
  test('a round by its key and a plan by its name lead straight to them', async () => {
    expect((await find('o-8001')).exact).toEqual([{ kind: 'round', id: 'O-8001' }])
    expect((await find('Quiet office boards')).exact).toEqual([{ kind: 'plan', id: expect.any(String) }])
    expect((await find('Würzig: what fits')).exact).toEqual([])
  })
})
