import { afterAll, beforeAll, expect, test } from 'vitest'
import { rankInputOf } from '../../src/core/computeAnswer.ts'
import { wantingOf } from '../../src/core/ranking/hunt.ts'
import { listFindable } from '../../src/store/findable.ts'
import type { Store } from '../../src/store/open.ts'
import { openStore } from '../../src/store/open.ts'
import { listShelf, upsertShelf } from '../../src/store/shelf.ts'
import { inputsFor } from '../../src/uses/answerQuestion.ts'
import { type HuntNow, type HuntView, huntWorkedOut, viewHunt } from '../../src/uses/hunt.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { tablesOf } from '../demo/tables.ts'
import { AT, unwrapped } from './jobs/jobShop.ts'

// Against the core's own prices, worked out here and not in a thread, of the invented shop of fixtures/README.md.

let store: Store
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
})
afterAll(() => store.close())

function toldOf(now: HuntNow): HuntView {
  if (now.state !== 'told') throw new Error(`it is ${now.state}`)
  return now.told
}

/** Questions that are worked out here again: all of them would take twice as long. */
const some = ({ questions }: HuntView): readonly string[] => [...questions.keys()].slice(0, 3)

/** What each question pays for each part, as the core says of the same inputs. */
async function pricesHere(questionIds: readonly string[]): Promise<Set<string>> {
  const found = await listFindable(store.db)
  const also = found.map(({ part }) => part)
  const all = new Set<string>()
  for (const id of questionIds) {
    const { inputs } = unwrapped(await inputsFor(store, id, AT, undefined, also))
    for (const [i, one] of [...wantingOf(rankInputOf(inputs), found)].entries())
      if (one !== undefined) all.add(JSON.stringify([found[i]?.findable.id, one]))
  }
  return all
}

const pricesOf = ({ prey }: HuntView, questionIds: readonly string[]): Set<string> =>
  new Set(
    prey.flatMap(({ findable, wanting }) =>
      wanting
        .filter(({ questionId }) => questionIds.includes(questionId))
        .map((one) => JSON.stringify([findable.id, one])),
    ),
  )

test('nobody waits: at first it is under way, and once worked out it has the prices of the core', async () => {
  expect(await viewHunt(store, AT, 0)).toMatchObject({ state: 'under way' })
  // Who waits long enough has it at the first look.
  const now = await viewHunt(store, AT, 100_000)
  expect(now).toMatchObject({ state: 'told', isStale: false })
  const told = toldOf(now)
  expect(told.questions.size).toBeGreaterThan(1)
  expect(told.prey.length).toBeGreaterThan(0)
  const prices = pricesOf(told, some(told))
  expect(prices.size).toBeGreaterThan(0)
  expect(prices).toEqual(await pricesHere(some(told)))
})

test('a shelf that costs three times as much pays more; until that is worked out the earlier list stands and says so', async () => {
  const before = toldOf(await huntWorkedOut(store, AT))
  const dearer = (await listShelf(store.db)).map(({ item }) => ({ ...item, priceMinor: item.priceMinor * 3 }))
  await store.write((tx) => upsertShelf(tx, dearer))
  const meanwhile = await viewHunt(store, AT, 0)
  expect(meanwhile).toEqual({ state: 'told', told: before, isStale: true })
  const after = await huntWorkedOut(store, AT)
  expect(after).toMatchObject({ state: 'told', isStale: false })
  const prices = pricesOf(toldOf(after), some(before))
  expect(prices).not.toEqual(pricesOf(before, some(before)))
  expect(prices).toEqual(await pricesHere(some(before)))
})
