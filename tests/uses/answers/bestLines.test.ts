import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Store } from '../../../src/store/open.ts'
import { openStore } from '../../../src/store/open.ts'
import { listOpenQuestions } from '../../../src/store/questionLines.ts'
import { listShelf, upsertShelf } from '../../../src/store/shelf.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { bestLines, bestLinesWorkedOut } from '../../../src/uses/answers/bestLines.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { letterOf } from '../../../src/words/answer.ts'
import { tablesOf } from '../../demo/tables.ts'
import { AT, unwrapped } from '../jobs/jobShop.ts'

// Against the answer as its own page tells it, of the invented shop of fixtures/README.md.

let store: Store
let ids: readonly string[]
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
  ids = (await listOpenQuestions(store.db)).map(({ id }) => id).slice(0, 4)
})
afterAll(() => store.close())

const leadOf = async (id: string): Promise<string> =>
  letterOf(unwrapped(await answerQuestion(store, id, AT))).lead.answer

test('nobody waits: there is no line at first, and once worked out each is what its page leads with', async () => {
  expect(ids).toHaveLength(4)
  expect(await bestLines(store, ids, AT)).toEqual(new Map())
  const lines = await bestLinesWorkedOut(store, ids, AT)
  expect(lines.size).toBe(4)
  for (const id of ids)
    expect([id, lines.get(id)]).toEqual([id, { told: await leadOf(id), isEarlier: false }])
})

test('a price that changes changes the line; until it is worked out the earlier one stands and says so', async () => {
  const before = await bestLinesWorkedOut(store, ids, AT)
  const dearer = (await listShelf(store.db)).map(({ item }) => ({ ...item, priceMinor: item.priceMinor * 3 }))
  await store.write((tx) => upsertShelf(tx, dearer))
  const earlier = await bestLines(store, ids, AT)
  for (const id of ids) expect(earlier.get(id)).toEqual({ told: before.get(id)?.told, isEarlier: true })
  const after = await bestLinesWorkedOut(store, ids, AT)
  expect(after).not.toEqual(before)
  for (const id of ids)
    expect([id, after.get(id)]).toEqual([id, { told: await leadOf(id), isEarlier: false }])
})

test('a question that is closed or unknown has no line, and holds nobody up', async () => {
  const [first = ''] = ids
  const lines = await bestLinesWorkedOut(store, [first, 'Q-9999'], AT)
  expect([...lines.keys()]).toEqual([first])
})
