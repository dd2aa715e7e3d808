import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ageOf, withVersions } from '../../../src/core/gain/age.ts'
import { knownBy, pairKey } from '../../../src/core/gain/measuredMap.ts'
import type { Run } from '../../../src/core/gain/run.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { loadParts, upsertParts } from '../../../src/store/parts.ts'
import { partsNeverRun } from '../../../src/store/runPairs.ts'
import { listRuns, takeRunOut, upsertRuns } from '../../../src/store/runs.ts'
import { listTitles } from '../../../src/store/titles.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { viewRun, viewTitle, viewTitles } from '../../../src/uses/runs/runViews.ts'
import { viewMeasured } from '../../../src/uses/runs/viewMeasured.ts'
import { shopOrNeutral } from '../../../src/uses/shop.ts'
import { tablesOf } from '../../demo/tables.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'
import { unwrapped } from '../jobs/jobShop.ts'

// Against the runs of the invented shop of fixtures/README.md, counted here one by one, with the age that core/gain/age gives.

const NOW = '2026-06-12T12:00:00.000Z'
const whole = { offset: 0, most: 1000 }
const all = { processors: whole, cards: whole, pairs: whole }

let store: Store
let runs: readonly Run[]
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
  const [first] = await listRuns(store.db)
  if (first === undefined) throw new Error('the invented shop has runs')
  await store.write(async (tx) => {
    // One of long ago, a pair that was run long ago alone, and a run that was taken out.
    const [never] = (await partsNeverRun(tx, 'card', 1)).lines
    if (never === undefined) throw new Error('the invented shop has a card that was never run')
    const long = { ...first, id: 'R-LONG', at: '2019-01-01T12:00:00.000Z', machineTag: undefined }
    const [card] = await loadParts(tx, [first.fitted.cardId])
    if (card !== undefined) await upsertParts(tx, [{ ...card, id: 'CRD-NEVER', name: 'Never run at all' }])
    const alone = { ...long, id: 'R-ALONE', fitted: { ...first.fitted, cardId: never.id } }
    await upsertRuns(tx, [long, alone, { ...first, id: 'R-OUT' }])
    await takeRunOut(tx, 'R-OUT', NOW)
  })
  runs = await listRuns(store.db)
})
afterAll(() => store.close())

const ages = async () => {
  const { policy } = await shopOrNeutral(store.db)
  const titles = (await listTitles(store.db)).map((title) => withVersions(title, runs))
  return (run: Run) =>
    ageOf(
      run,
      titles.find(({ id }) => id === run.titleId),
      policy,
      NOW,
    )
}
const pairOf = ({ fitted: { processorId, cardId } }: Run) => pairKey({ processorId, cardId })

describe('the map', () => {
  test.each([undefined, 'saffron'])(
    'every pair with its runs, titles, last day and how well it is known: %s',
    async (titleId) => {
      const view = await viewMeasured(store, { ...all, titleId }, NOW)
      const [age, mine] = [
        await ages(),
        runs.filter((run) => titleId === undefined || run.titleId === titleId),
      ]
      expect(mine.length).toBeGreaterThan(5)
      expect(view.runs).toBe(mine.length)
      const keys = [...new Set(mine.map(pairOf))]
      expect([...view.cells.keys()].sort()).toEqual([...keys].sort())
      for (const key of keys) {
        const own = mine.filter((run) => pairOf(run) === key)
        const current = own.filter((run) => age(run) === 'current').length
        expect(view.cells.get(key)).toMatchObject({
          ...{ runs: own.length, titles: new Set(own.map((run) => run.titleId)).size },
          lastAt: own
            .map(({ at }) => at)
            .sort()
            .at(-1),
          known: knownBy(own.length, current),
        })
      }
      expect(view.pairs.lines.map(pairKey).sort()).toEqual([...keys].sort())
      if (titleId === undefined)
        expect(new Set([...view.cells.values()].map(({ known }) => known)).size).toBeGreaterThan(1)
    },
  )
  test('parts that no run names are told apart, by name', async () => {
    const { neverRun } = await viewMeasured(store, all, NOW)
    const ran = new Set(runs.flatMap(({ fitted }) => [fitted.processorId, fitted.cardId]))
    for (const kind of ['processor', 'card'] as const) {
      expect(neverRun[kind].total).toBeGreaterThanOrEqual(neverRun[kind].lines.length)
      for (const { id } of neverRun[kind].lines) expect(ran.has(id)).toBe(false)
    }
    expect(neverRun.card.lines.map(({ name }) => name)).toEqual(['Never run at all'])
  })
  test('a piece behind the last one is the last one, and a title that was never run is none', async () => {
    const asked = {
      processors: { offset: 900, most: 2 },
      cards: { offset: 1, most: 2 },
      pairs: { offset: 999, most: 5 },
    }
    const view = await viewMeasured(store, { ...asked, titleId: 'nothing' }, NOW)
    expect(view.title).toBeUndefined()
    const { processors, cards } = await viewMeasured(store, all, NOW)
    expect(view.processors.lines).toEqual(processors.lines.slice(Math.floor((processors.total - 1) / 2) * 2))
    expect(view.cards.lines).toEqual(cards.lines.slice(0, 2))
    expect(view.pairs.lines.length).toBeGreaterThan(0)
  })
  test('a shop without runs', async () => {
    const view = await viewMeasured(await temporaryStore(), all, NOW)
    expect(view).toMatchObject({ runs: 0, pairs: { total: 0 }, processors: { lines: [] }, cells: new Map() })
  })
})

describe('titles and runs, counted in the database', () => {
  test('runs of each title, old ones among them, and of each setting', async () => {
    const [view, age] = [await viewTitles(store, NOW), await ages()]
    expect(view.titles.some(({ oldRuns }) => oldRuns > 0)).toBe(true)
    for (const { title, runs: n, oldRuns } of view.titles) {
      const own = runs.filter((run) => run.titleId === title.id)
      expect([n, oldRuns]).toEqual([own.length, own.filter((run) => age(run) !== 'current').length])
    }
    for (const { setting, runs: n } of view.settings)
      expect(n).toBe(runs.filter((run) => run.settingId === setting.id).length)
  })
  test('a title shows its newest runs, how many there are, and how many of each version', async () => {
    const view = unwrapped(await viewTitle(store, 'saffron', NOW))
    const own = runs.filter((run) => run.titleId === 'saffron')
    expect(view.found).toBe(own.length)
    expect(view.runs.map(({ id }) => id)).toEqual(
      own
        .map(({ id }) => id)
        .reverse()
        .slice(0, view.runs.length),
    )
    expect([...view.ofVersion.values()].reduce((a, b) => a + b, 0)).toBe(own.length)
  })
  test('a run shows the others of its parts, title and setting, and not one that was taken out', async () => {
    const first = runs.find(({ id }) => id !== 'R-LONG') as Run
    const key = (run: Run) => JSON.stringify([run.fitted, run.titleId, run.settingId])
    const like = runs.filter(
      (run) => run.id !== 'R-LONG' && key(run) === key(runs.find(({ id }) => id === 'R-LONG') as Run),
    )
    const view = unwrapped(await viewRun(store, 'R-LONG', NOW))
    expect(view.repeats.map(({ id }) => id)).toEqual(like.map(({ id }) => id).reverse())
    expect(view.repeats.length).toBeGreaterThan(0)
    expect(unwrapped(await viewRun(store, 'R-OUT', NOW)).takenOutAt).toBe(NOW)
    expect(unwrapped(await viewRun(store, first.id, NOW)).takenOutAt).toBeUndefined()
  })
})
