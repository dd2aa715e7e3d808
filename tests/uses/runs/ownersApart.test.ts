import { beforeEach, describe, expect, test } from 'vitest'
import { sayProblem } from '../../../src/problem.ts'
import type { Store } from '../../../src/store/open.ts'
import { listRuns } from '../../../src/store/runs.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { exportShop, exportTable } from '../../../src/uses/exportShop.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { viewRunSheet } from '../../../src/uses/runs/runSheet.ts'
import { viewRuns, viewTitle, viewTitles } from '../../../src/uses/runs/runViews.ts'
import { filesOf, SMALL_SHOP, type Tables } from '../../input/smallShop.ts'
import { dump, temporaryStore } from '../../store/temporaryStore.ts'

const NOW = '2026-11-24T15:04:05.678Z'

const header = ['machine', 'title', 'setting', 'reported_on', 'average_fps', 'low_1pct_fps', 'note']
/** A figure that no run has, so that it would be seen wherever it went. */
const SAID: Tables = {
  owner_reports: [header, ['M-0001', 'harbor', '1080-high', '2026-03-05', '1234.5', '999.5', 'at home']],
}

let store: Store
beforeEach(async () => {
  store = await temporaryStore()
  await bring(SMALL_SHOP)
})

async function bring(tables: Tables): Promise<void> {
  const imported = await importShop(store, filesOf(tables), NOW)
  if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
}

test('what an owner says changes no run, no answer, no sheet and no count of runs', async () => {
  const all = async () =>
    JSON.stringify([
      await listRuns(store.db),
      await answerQuestion(store, 'Q1', NOW),
      await viewRunSheet(store, {}, NOW),
      await viewTitles(store, NOW),
      (await viewRuns(store, { most: 1000 }, NOW)).runs,
      await exportTable(store, 'runs'),
    ])
  const before = await all()
  await bring(SAID)
  expect(await all()).toBe(before)
  expect(before).not.toContain('1234.5')
})

test('it is shown beside them', async () => {
  await bring(SAID)
  const said = { machineTag: 'M-0001', averageFps: 1234.5, low1Fps: 999.5, note: 'at home' }
  expect((await viewRuns(store, { most: 1000 }, NOW)).reports).toMatchObject([said])
  expect(await viewTitle(store, 'harbor', NOW)).toMatchObject({ value: { reports: [said] } })
})

test('it is exported and comes back, and the same row twice changes nothing', async () => {
  await bring(SAID)
  const before = await dump(store)
  const files = (await exportShop(store)).map(({ name, text }) => ({
    name: `${name}.csv`,
    bytes: new TextEncoder().encode(text),
  }))
  expect(files.map(({ name }) => name)).toContain('owner_reports.csv')
  const again = await importShop(store, files, NOW)
  expect(again.ok && again.value.tables.filter(({ added, changed }) => added + changed > 0)).toEqual([])
  expect(await dump(store)).toEqual(before)
})

test('a corrected row replaces the old one', async () => {
  await bring(SAID)
  await bring({
    owner_reports: [header, ['M-0001', 'harbor', '1080-high', '2026-03-05', '80', '60', '']],
  })
  const { reports } = await viewRuns(store, { most: 1000 }, NOW)
  expect(reports).toHaveLength(1)
  expect(reports[0]).toMatchObject({ averageFps: 80, low1Fps: 60 })
  expect(reports[0]).not.toHaveProperty('note')
})

describe('refused are', () => {
  test.each([
    [
      'a low above the average',
      ['M-0001', 'harbor', '1080-high', '2026-03-05', '60', '61', ''],
      'low_1pct_fps',
    ],
    ['a day to come', ['M-0001', 'harbor', '1080-high', '2026-11-25', '60', '', ''], 'reported_on'],
    ['a machine nobody has', ['M-9', 'harbor', '1080-high', '2026-03-05', '60', '', ''], 'machine'],
    ['a frame rate of nothing', ['M-0001', 'harbor', '1080-high', '2026-03-05', '0', '', ''], 'average_fps'],
  ])('%s', async (_, row, field) => {
    const imported = await importShop(store, filesOf({ owner_reports: [header, row] }), NOW)
    expect(imported).toMatchObject({
      ok: false,
      problems: [{ file: 'owner_reports.csv', line: 2, field }],
    })
  })
})
