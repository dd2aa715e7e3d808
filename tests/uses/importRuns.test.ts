import { describe, expect, test } from 'vitest'
import type { Run } from '../../src/core/gain/run.ts'
import { sayProblem } from '../../src/problem.ts'
import type { Store } from '../../src/store/open.ts'
import { listRuns, loadRun, loadTakenOut, nextRunId, takeRunOut } from '../../src/store/runs.ts'
import { listSettings, listTitles } from '../../src/store/titles.ts'
import { exportShop } from '../../src/uses/exportShop.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { filesOf, SMALL_SHOP, type Tables } from '../input/smallShop.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const NOW = '2026-11-24T15:04:05.678Z'

/** Everything a run, a setting and a title can say. All invented. */
const FULL: Tables = {
  titles: [
    ['title', 'name', 'versions', 'memory_gb', 'graphics_memory_gb', 'cap_fps'],
    ['harbor', 'Invented Harbor', '1.1=2026-01-15; 1.0=2025-01-01', '16', '6', '120'],
  ],
  settings: [
    ['setting', 'width_px', 'height_px', 'preset', 'lowered_from', 'lowered_what'],
    // The lower one first: the order of rows is nobody's business.
    ['1080-high-shadows', '1920', '1080', 'high', '1080-high', 'shadows'],
    ['1080-high', '1920', '1080', 'high', '', ''],
  ],
  runs: [
    [
      ...['run', 'run_on', 'machine', 'memory_mts', 'title', 'title_version', 'setting', 'average_fps'],
      ...['low_1pct_fps', 'low_1pct_mean_fps', 'low_0_1pct_fps', 'low_0_1pct_mean_fps', 'large_bar'],
      ...[
        'processor_limit_w',
        'card_limit_w',
        'driver',
        'scene',
        'room_c',
        'processor_load_c',
        'card_load_c',
      ],
      ...['noise_dba', 'log', 'note'],
    ],
    [
      ...['R9', '2026-03-01T14:30:00Z', 'M-0001', '2666', 'harbor', '1.1', '1080-high', '88.4'],
      ...['61.5', '55', '40.25', '0.8', 'yes'],
      ...['125', '180', '31.2', 'pier, second lap', '22.5', '71', '66', '38.5', 'L-1', 'warm day'],
    ],
  ],
}

const R9: Run = {
  ...{ id: 'R9', at: '2026-03-01T14:30:00.000Z', machineTag: 'M-0001' },
  fitted: {
    ...{ processorId: 'CPU-A', cardId: 'CARD-B', link: { gen: 3, lanes: 16 } },
    memory: { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 },
    ...{ largeBar: true, processorLimitW: 125, cardLimitW: 180 },
  },
  ...{ titleId: 'harbor', titleVersion: '1.1', settingId: '1080-high', averageFps: 88.4 },
  ...{ low1Fps: 61.5, low1MeanFps: 55, low01Fps: 40.25, low01MeanFps: 0.8 },
  ...{ driverVersion: '31.2', scene: 'pier, second lap', roomC: 22.5, processorLoadC: 71, cardLoadC: 66 },
  ...{ noiseDba: 38.5, logId: 'L-1', note: 'warm day' },
}

async function storeWith(...tables: readonly Tables[]): Promise<Store> {
  const store = await temporaryStore()
  for (const some of tables) {
    const imported = await importShop(store, filesOf(some), NOW)
    if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
  }
  return store
}

/** The full run with some cells changed. */
const runWith = (cells: Readonly<Record<string, string>>): Tables => {
  const [header = [], row = []] = FULL.runs ?? []
  return { runs: [header, header.map((name, at) => cells[name] ?? row[at] ?? '')] }
}

test('every field of a run, a setting and a title is kept, exported and imported again', async () => {
  const store = await storeWith(SMALL_SHOP, FULL)
  expect(await loadRun(store.db, 'R9')).toEqual(R9)
  expect(await listTitles(store.db)).toEqual([
    {
      ...{ id: 'harbor', name: 'Invented Harbor', memoryGB: 16, graphicsMemoryGB: 6, capFps: 120 },
      versions: [
        // Noon in Chicago, UTC-6 in winter (IANA time zone database).
        { version: '1.0', at: '2025-01-01T18:00:00.000Z' },
        { version: '1.1', at: '2026-01-15T18:00:00.000Z' },
      ],
    },
  ])
  expect((await listSettings(store.db)).find(({ id }) => id === '1080-high-shadows')).toEqual({
    ...{ id: '1080-high-shadows', widthPx: 1920, heightPx: 1080, preset: 'high' },
    ...{ rayTracing: false, frameGeneration: false },
    lowered: { fromSettingId: '1080-high', what: 'shadows' },
  })
  const before = await dump(store)
  const files = (await exportShop(store)).map(({ name, text }) => ({
    name: `${name}.csv`,
    bytes: new TextEncoder().encode(text),
  }))
  const again = await importShop(store, files, NOW)
  expect(again.ok && again.value.tables.filter(({ added, changed }) => added + changed > 0)).toEqual([])
  expect(await dump(store)).toEqual(before)
  const other = await storeWith()
  expect((await importShop(other, files, NOW)).ok).toBe(true)
  expect(await listRuns(other.db)).toEqual(await listRuns(store.db))
})

test('a file without a column leaves what is stored; an empty cell clears it', async () => {
  const store = await storeWith(SMALL_SHOP, FULL, {
    titles: [
      ['title', 'name', 'cap_fps'],
      ['harbor', 'Invented Harbour', ''],
    ],
  })
  const [title] = await listTitles(store.db)
  expect(title).toMatchObject({ name: 'Invented Harbour', memoryGB: 16 })
  expect(title?.versions).toHaveLength(2)
  expect(title).not.toHaveProperty('capFps')
  expect((await importShop(store, filesOf(runWith({ scene: '', room_c: '' })), NOW)).ok).toBe(true)
  const { scene: _, roomC: __, ...rest } = R9
  expect(await loadRun(store.db, 'R9')).toEqual(rest)
})

describe('what firmware and driver are set to', () => {
  const limits: Tables = {
    limits: [
      ['machine', 'limit', 'value', 'source', 'on'],
      ['M-0001', 'large_bar_on', 'yes', 'read', '2026-02-20'],
      ['M-0001', 'card_set_w', '170', 'entered', '2026-02-20'],
    ],
  }
  const bare = { large_bar: '', card_limit_w: '', processor_limit_w: '' }
  test('comes from what was seen on the machine by that day', async () => {
    const store = await storeWith(SMALL_SHOP, FULL, limits, runWith(bare))
    expect((await loadRun(store.db, 'R9'))?.fitted).toMatchObject({ largeBar: true, cardLimitW: 170 })
  })
  test('is not known of a day before anybody looked', async () => {
    const store = await storeWith(SMALL_SHOP, FULL, limits, runWith({ ...bare, run_on: '2026-02-19' }))
    const fitted = (await loadRun(store.db, 'R9'))?.fitted
    expect([fitted?.largeBar, fitted?.cardLimitW]).toEqual([undefined, undefined])
  })
})

describe('what cannot be is refused, with line and column, and nothing is kept', () => {
  test.each([
    ['below one', { average_fps: '0.99', low_1pct_fps: '' }, 'average_fps', '1 to 2000'],
    ['above 2000', { average_fps: '2000.1' }, 'average_fps', '1 to 2000'],
    ['a low above the average', { low_1pct_fps: '88.5', log: '' }, 'low_1pct_fps', 'the average of 88.4'],
    ['the other definition too', { low_1pct_mean_fps: '90' }, 'low_1pct_mean_fps', 'above the average'],
    ['a 0.1% low above the 1% low', { low_0_1pct_fps: '61.6' }, 'low_0_1pct_fps', '1% low of 61.5'],
    ['a day that has not come', { run_on: '2026-11-25' }, 'run_on', 'today is 2026-11-24'],
    ['a version its title does not have', { title_version: '1.2' }, 'title_version', 'It has 1.0, 1.1'],
    ['a room like an oven', { room_c: '61' }, 'room_c', '0 to 60'],
  ])('%s', async (_, cells, field, says) => {
    const store = await storeWith(SMALL_SHOP, FULL)
    const before = await dump(store)
    const imported = await importShop(store, filesOf(runWith(cells)), NOW)
    expect(imported).toMatchObject({ ok: false, problems: [{ file: 'runs.csv', line: 2, field }] })
    expect(imported.ok ? '' : imported.problems[0]?.next).toContain(says)
    expect(await dump(store)).toEqual(before)
  })
  // 1001 frames, 1000 of 10 ms and one of 10 s: average 50 FPS, 99 of 100 frames beat 100 FPS.
  test('a log with one long pause may have its 1% low above the average', async () => {
    const pause = { average_fps: '50', low_1pct_fps: '100', low_1pct_mean_fps: '1.1' }
    const store = await storeWith(SMALL_SHOP, FULL, runWith({ ...pause, low_0_1pct_mean_fps: '0.2' }))
    expect(await loadRun(store.db, 'R9')).toMatchObject({ averageFps: 50, low1Fps: 100 })
  })
  test('both edges of a frame rate are taken, and so is a run later today', async () => {
    const store = await storeWith(SMALL_SHOP, FULL)
    const lows = { low_1pct_fps: '', low_1pct_mean_fps: '', low_0_1pct_fps: '', low_0_1pct_mean_fps: '' }
    for (const average_fps of ['1', '2000'])
      expect((await importShop(store, filesOf(runWith({ ...lows, average_fps })), NOW)).ok).toBe(true)
    // Noon in Chicago is 18:00 UTC; it is 15:04 now.
    expect((await importShop(store, filesOf(runWith({ ...lows, run_on: '2026-11-24' })), NOW)).ok).toBe(true)
  })
  test.each([
    ['a setting that nobody has', ['x', '1920', '1080', 'low', 'no', 'nobody', 'shadows'], 'No setting has'],
    ['half of it', ['x', '1920', '1080', 'low', 'no', '1080-high', ''], 'both, or neither'],
    ['itself', ['x', '1920', '1080', 'low', 'no', 'x', 'shadows'], 'not a step below itself'],
    [
      'across frame generation',
      ['x', '1920', '1080', 'low', 'yes', '1080-high', 'shadows'],
      'never compared',
    ],
  ])('a setting lowered from %s', async (_, row, says) => {
    const store = await storeWith(SMALL_SHOP, FULL)
    const header = ['setting', 'width_px', 'height_px', 'preset', 'frame_generation']
    const settings = [[...header, 'lowered_from', 'lowered_what'], row]
    const imported = await importShop(store, filesOf({ settings }), NOW)
    expect(imported.ok ? '' : imported.problems[0]?.next).toContain(says)
  })
  test.each([
    ['a version without its day', '2.0', 'with the day it came out'],
    ['a version twice', '2.0=2025-01-01; 2.0=2025-02-01', 'named twice'],
  ])('%s', async (_, versions, says) => {
    const store = await storeWith(SMALL_SHOP)
    const titles = [
      ['title', 'name', 'versions'],
      ['harbor', 'Invented Harbor', versions],
    ]
    const imported = await importShop(store, filesOf({ titles }), NOW)
    expect(imported.ok ? '' : imported.problems[0]?.next).toContain(says)
  })
  test('a nominal figure that nobody stands behind', async () => {
    const store = await storeWith(SMALL_SHOP)
    const cards = [
      ['part', 'name', 'nominal_figure'],
      ['CARD-A', 'Invented small', '1234'],
    ]
    expect(await importShop(store, filesOf({ cards }), NOW)).toMatchObject({
      problems: [{ code: 'missing', field: 'nominal_source', file: 'cards.csv', line: 2 }],
    })
  })
})

describe('one run entered twice', () => {
  const twice = (cells: Readonly<Record<string, string>>): Tables => {
    const [header = [], row = []] = FULL.runs ?? []
    return {
      runs: [header, row, header.map((name, at) => ({ run: 'R10', ...cells })[name] ?? row[at] ?? '')],
    }
  }
  test('is told and not doubled, within a file and against what is stored', async () => {
    const store = await storeWith(SMALL_SHOP, { titles: FULL.titles ?? [], settings: FULL.settings ?? [] })
    for (const added of [1, 0]) {
      const imported = await importShop(store, filesOf(twice({ run_on: '2026-03-01T14:30:59Z' })), NOW)
      expect(imported).toMatchObject({
        ok: true,
        value: { tables: [{ added }], notes: ['Line 3 of runs.csv, R10, is R9 once more and was left out'] },
      })
    }
    expect((await listRuns(store.db)).map(({ id }) => id)).not.toContain('R10')
  })
  test.each([
    ['a minute later', { run_on: '2026-03-01T14:31:00Z' }],
    ['another figure', { average_fps: '88.5' }],
    ['another scene', { scene: 'market' }],
  ])('%s is a repeat', async (_, cells) => {
    const store = await storeWith(SMALL_SHOP, FULL)
    expect(await importShop(store, filesOf(twice(cells)), NOW)).toMatchObject({
      value: { tables: [{ added: 1 }] },
    })
  })
})

test('a run that was taken out is seen by nobody, keeps its number, and comes back', async () => {
  const store = await storeWith(
    SMALL_SHOP,
    FULL,
    runWith({ run: 'R-0007', average_fps: '88.5', note: 'to go' }),
  )
  await store.write((tx) => takeRunOut(tx, 'R-0007', NOW))
  expect((await listRuns(store.db)).map(({ id }) => id)).not.toContain('R-0007')
  expect(await loadRun(store.db, 'R-0007')).toBeUndefined()
  expect(await loadTakenOut(store.db, 'R-0007')).toMatchObject({ id: 'R-0007', takenOutAt: NOW })
  expect(await nextRunId(store.db)).toBe('R-0008')
  const runsCsv = (await exportShop(store)).find(({ name }) => name === 'runs')?.text
  expect(runsCsv).not.toContain('R-0007')
  await store.write((tx) => takeRunOut(tx, 'R-0007', undefined))
  expect(await loadRun(store.db, 'R-0007')).toMatchObject({ id: 'R-0007', note: 'to go' })
  expect(await loadTakenOut(store.db, 'R-0007')).toBeUndefined()
})
