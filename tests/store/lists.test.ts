import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ageOf, versionsOf } from '../../src/core/gain/age.ts'
import { searchCustomers } from '../../src/store/customers.ts'
import { searchMachines } from '../../src/store/machineSearch.ts'
import { searchQuestions } from '../../src/store/questionLines.ts'
import { listRuns } from '../../src/store/runs.ts'
import { searchShelf } from '../../src/store/shelf.ts'
import { listTitles } from '../../src/store/titles.ts'
import { viewRuns } from '../../src/uses/runs/runViews.ts'
import { shopOrNeutral } from '../../src/uses/shop.ts'
import { type DemoShop, openDemoShop } from '../demo/openDemoShop.ts'

// Lists that are searched and paged in the database, held against the same done here, over the whole invented shop.

let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(() => shop.close())

/** All pages of a list, one behind the other. */
async function walked<T>(
  page: (offset: number, most: number) => Promise<{ readonly lines: readonly T[]; readonly total: number }>,
): Promise<T[]> {
  const lines: T[] = []
  for (;;) {
    const piece = await page(lines.length, 3)
    lines.push(...piece.lines)
    if (piece.lines.length === 0) {
      expect(lines).toHaveLength(piece.total)
      return lines
    }
  }
}

describe('pages of a list', () => {
  test('together are the list, each line once and in its order', async () => {
    const { db } = shop.store
    const machines = (await searchMachines(db)).lines
    expect(await walked((offset, most) => searchMachines(db, { offset, most }))).toEqual(machines)
    const tags = machines.map(({ tag }) => tag)
    expect(tags).toEqual(tags.toSorted((a, b) => b.localeCompare(a, 'en', { numeric: true })))
    expect(new Set(tags).size).toBeGreaterThan(10)
    const customers = (await searchCustomers(db)).lines
    expect(await walked((offset, most) => searchCustomers(db, { offset, most }))).toEqual(customers)
    const states = ['new', 'answered'] as const
    const questions = (await searchQuestions(db, { states, most: 100 })).lines
    expect(await walked((offset, most) => searchQuestions(db, { states, offset, most }))).toEqual(questions)
    expect(questions.length).toBeGreaterThan(5)
    const shelf = (await searchShelf(db, { offset: 0, most: 100 })).lines
    expect(await walked((offset, most) => searchShelf(db, { offset, most }))).toEqual(shelf)
  })

  test('a piece beyond the end is empty and says how many there are', async () => {
    const { total } = await searchMachines(shop.store.db)
    expect(await searchMachines(shop.store.db, { offset: 10_000, most: 5 })).toEqual({ lines: [], total })
  })

  test('an item of the shelf is on the page that its link leads to', async () => {
    const { db } = shop.store
    for (const { item } of (await searchShelf(db, { offset: 0, most: 100 })).lines) {
      const found = await searchShelf(db, { itemId: item.id, offset: 0, most: 4 })
      expect(found.lines.map((line) => line.item.id)).toContain(item.id)
      expect(found.offset % 4).toBe(0)
    }
  })
})

describe('what is looked for', () => {
  test.each(['marchbank', 'MARCHBANK', 'M-02', 'card', '*', '?', '[', ']', '^', '[a-z]', '-', "'", '%', 'ß'])(
    '%s is found as the text itself, upper and lower case alike',
    async (query) => {
      const { db } = shop.store
      const sought = query.toLowerCase()
      const is = (...texts: (string | undefined)[]) =>
        texts.some((text) => text?.toLowerCase().includes(sought))
      const all = await searchCustomers(db)
      const found = await searchCustomers(db, { query })
      expect(found.lines).toEqual(
        all.lines.filter(({ id, name, email, machines }) => is(id, name, email, ...machines)),
      )
      expect(found.total).toBe(found.lines.length)
      const states = ['new', 'answered', 'waiting for the owner', 'called off'] as const
      const questions = (await searchQuestions(db, { states, most: 100 })).lines
      expect((await searchQuestions(db, { states, query, most: 100 })).lines).toEqual(
        questions.filter(({ id, words, machineTag, customerName }) =>
          is(id, words, machineTag, customerName),
        ),
      )
    },
  )
})

test.each(['2026-11-24T15:00:00.000Z', '2026-06-01T00:00:00.000Z', '2028-01-01T00:00:00.000Z'])(
  'runs are old in the database as they are run by run, at %s',
  async (now) => {
    const { db } = shop.store
    const { policy } = await shopOrNeutral(db)
    const runs = await listRuns(db)
    const titles = new Map(
      (await listTitles(db)).map((title) => {
        const own = runs.filter(({ titleId }) => titleId === title.id)
        return [title.id, { versions: versionsOf(title, own) }]
      }),
    )
    const isOld = (run: (typeof runs)[number]) =>
      ageOf(run, titles.get(run.titleId), policy, now) !== 'current'
    const ids = async (age: 'old' | 'current') =>
      (await viewRuns(shop.store, { age, most: 1000 }, now)).runs.map(({ id }) => id).sort()
    expect(await ids('old')).toEqual(
      runs
        .filter(isOld)
        .map(({ id }) => id)
        .sort(),
    )
    expect(await ids('current')).toEqual(
      runs
        .filter((run) => !isOld(run))
        .map(({ id }) => id)
        .sort(),
    )
  },
)
