import { afterAll, beforeAll, expect, test } from 'vitest'
import { ageOf } from '../../src/core/gain/age.ts'
import { isCapped } from '../../src/core/gain/capped.ts'
import { viewRuns } from '../../src/uses/runs/runViews.ts'
import { viewMachine } from '../../src/uses/views.ts'
import { letterOf } from '../../src/words/answer.ts'
import { type DemoShop, openDemoShop, QUESTIONS } from './openDemoShop.ts'

// The story of fixtures/README.md (invented data); frame rates read off runs.csv.
let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(() => shop.close())

test('Q-0307: shadows one step lower take Saffron Relay from 44.0 to 53.1, for nothing', () => {
  const answer = shop.answerTo('Q-0307')
  expect(answer.lowered).toMatchObject([
    {
      ...{ titleId: 'saffron', settingId: '1080-high', loweredId: '1080-high-shadows', what: ['shadows'] },
      before: { averageFps: 44, onThisMachine: true },
      after: { averageFps: 53.1, onThisMachine: true },
      ...{ isAtLeast: false, reachesTarget: false },
    },
  ])
  const { lead, roads } = letterOf(answer)
  const said = [...lead.more, ...(roads?.items ?? []).flatMap(({ says }) => says)].join(' ')
  expect(said.replaceAll('\u00a0', ' ')).toContain('44 to 53 FPS')
})

test('no other question has a lower setting that was measured on its machine’s parts', () => {
  for (const id of QUESTIONS.filter((question) => question !== 'Q-0307'))
    expect(shop.answerTo(id).lowered, id).toEqual([])
})

test('M-0198 ran once with a card lent from the shelf, and its page knows that card by name', async () => {
  const view = await viewMachine(shop.store, 'M-0198', '2026-11-24T15:00:00.000Z')
  const { history, runs, ranWith } = view.ok ? view.value : expect.fail()
  expect(history.map(({ part }) => part.id)).not.toContain('CRD-SPOKESHAVE8')
  expect(ranWith.map(({ name }) => name).sort()).toEqual([
    'Hobbin Gimlet 4G',
    'Hobbin Spokeshave 8G',
    'Kestrel Barley',
  ])
  expect(runs.map(({ fitted }) => fitted.cardId)).toContain('CRD-SPOKESHAVE8')
})

test('one run is at its cap, one is of an older version, and two owners say what they read', async () => {
  const { runs, titles, settings, reports } = await viewRuns(
    shop.store,
    { most: 1000 },
    '2026-11-24T15:00:00.000Z',
  )
  const titleOf = (id: string) => titles.find((title) => title.id === id)
  const capped = runs.filter((run) =>
    isCapped(
      run,
      settings.find(({ id }) => id === run.settingId),
      titleOf(run.titleId),
    ),
  )
  expect(capped.map(({ id }) => id)).toEqual(['R-0108'])
  const old = runs.filter(
    (run) =>
      ageOf(run, titleOf(run.titleId), { runWindowDays: 400 }, '2026-11-24T15:00:00.000Z') !== 'current',
  )
  expect(old.map(({ id }) => id)).toEqual(['R-0001'])
  expect([...new Set(reports.map(({ machineTag }) => machineTag))].sort()).toEqual(['M-0190', 'M-0217'])
})
