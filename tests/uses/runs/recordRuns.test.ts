import { beforeEach, describe, expect, test } from 'vitest'
import type { FittedFields } from '../../../src/input/tables/runs.ts'
import { sayProblem } from '../../../src/problem.ts'
import type { Store } from '../../../src/store/open.ts'
import { listRuns, loadRun } from '../../../src/store/runs.ts'
import { listTitles } from '../../../src/store/titles.ts'
import { importShop } from '../../../src/uses/importShop.ts'
import { recordLimit } from '../../../src/uses/recordLimit.ts'
import {
  bringBackRun,
  editRun,
  type RunEdit,
  takeOutRun,
  undoRunEdit,
} from '../../../src/uses/runs/changeRun.ts'
import { recordRuns, type Sheet, type SheetRow } from '../../../src/uses/runs/recordRuns.ts'
import { viewRunSheet } from '../../../src/uses/runs/runSheet.ts'
import { filesOf, SMALL_SHOP, type Tables } from '../../input/smallShop.ts'
import { dump, temporaryStore } from '../../store/temporaryStore.ts'

const NOW = '2026-11-24T15:04:05.678Z'

/** Two titles, one with a list of versions. All invented. */
const TITLES: Tables = {
  titles: [
    ['title', 'name', 'versions'],
    ['harbor', 'Invented Harbor', '1.0=2025-01-01; 1.1=2026-01-15'],
    ['mill', 'Invented Mill', ''],
  ],
}

let store: Store
beforeEach(async () => {
  store = await temporaryStore()
  for (const tables of [SMALL_SHOP, TITLES]) {
    const imported = await importShop(store, filesOf(tables), NOW)
    if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
  }
})

const FITTED: FittedFields = {
  ...{ processorId: 'CPU-A', cardId: 'CARD-B', memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 },
  ...{ linkGen: 3, linkLanes: 16 },
}

const row = (changes: Partial<SheetRow> = {}): SheetRow => ({
  ...{ ref: '0', titleId: 'harbor', settingId: '1080-high', titleVersion: '1.1', averageFps: 90.5 },
  ...changes,
})
const sheet = (rows: readonly SheetRow[], changes: Partial<Sheet> = {}): Sheet => ({
  ...{ machineTag: 'm-0001', at: NOW, fitted: FITTED, driverVersion: '31.2', roomC: 22, rows },
  ...changes,
})
const added = async () => (await listRuns(store.db)).filter(({ id }) => id.startsWith('R-'))

describe('a sheet of runs', () => {
  test('is kept with what was fitted, numbers in order, the machine by its own spelling', async () => {
    const rows = [row({ low1Fps: 61 }), row({ ref: '1', titleId: 'mill', titleVersion: '7', averageFps: 40 })]
    const kept = await recordRuns(store, sheet(rows), NOW)
    expect(kept).toEqual({ ok: true, value: { runIds: ['R-0001', 'R-0002'], copies: [] } })
    expect(await loadRun(store.db, 'R-0001')).toEqual({
      ...{ id: 'R-0001', at: NOW, machineTag: 'M-0001', titleId: 'harbor', titleVersion: '1.1' },
      ...{ settingId: '1080-high', averageFps: 90.5, low1Fps: 61, driverVersion: '31.2', roomC: 22 },
      fitted: {
        ...{ processorId: 'CPU-A', cardId: 'CARD-B', link: { gen: 3, lanes: 16 } },
        memory: { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 },
      },
    })
  })

  test.each([
    ['a low above its average', sheet([row({ ref: '4', low1Fps: 91 })]), 'low1Fps.4', /above the average/],
    ['the other low too', sheet([row({ ref: '4', low1MeanFps: 91 })]), 'low1MeanFps.4', /above the average/],
    ['a version nobody listed', sheet([row({ titleVersion: '1.2' })]), 'titleVersion.0', /It has 1.0, 1.1/],
    ['tomorrow', sheet([row()], { at: '2026-11-25T15:00:00Z' }), 'at', /today is 2026-11-24/],
    ['a machine nobody sold', sheet([row()], { machineTag: 'M-9' }), 'machine', /no machine with this tag/],
    ['a title nobody has', sheet([row({ titleId: 'x' })]), 'title.0', /Choose a title/],
    ['a setting nobody has', sheet([row({ settingId: 'x' })]), 'setting.0', /Choose a setting/],
    [
      'a link nobody looked at',
      sheet([row()], { fitted: { ...FITTED, linkGen: undefined } }),
      'linkGen',
      /link ran/,
    ],
    [
      'a card that is none',
      sheet([row()], { fitted: { ...FITTED, cardId: 'CPU-A' } }),
      'cardId',
      /Choose a card/,
    ],
    ['an empty sheet', sheet([]), 'rows', /at least one title/],
  ])('with %s is refused whole', async (_, refused, field, says) => {
    const before = await dump(store)
    const good = refused.rows.length === 0 ? [] : [row({ ref: '9', titleId: 'mill', titleVersion: '7' })]
    const kept = await recordRuns(store, { ...refused, rows: [...good, ...refused.rows] }, NOW)
    expect(kept).toMatchObject({ ok: false, problems: [{ field }] })
    expect(kept.ok ? '' : kept.problems[0]?.next).toMatch(says)
    expect(await dump(store)).toEqual(before)
  })

  test('a new version is listed from this run on; a title without a list gets that of its runs', async () => {
    const rows = [
      row({ titleVersion: '1.2', isNewVersion: true }),
      row({ ref: '1', titleId: 'mill', titleVersion: '8', isNewVersion: true }),
    ]
    expect(
      (await recordRuns(store, sheet([row({ titleId: 'mill', titleVersion: '7' })]), '2026-11-24T14:00:00Z'))
        .ok,
    ).toBe(true)
    expect((await recordRuns(store, sheet(rows), NOW)).ok).toBe(true)
    const titles = await listTitles(store.db)
    expect(titles.map(({ versions }) => versions?.map((v) => v.version))).toEqual([
      ['1.0', '1.1', '1.2'],
      ['7', '8'],
    ])
    expect(titles[0]?.versions?.at(-1)?.at).toBe(NOW)
  })

  test('sent twice is told and not doubled', async () => {
    await recordRuns(store, sheet([row()]), NOW)
    const again = await recordRuns(store, sheet([row(), row({ ref: '1', averageFps: 91 })]), NOW)
    expect(again).toMatchObject({ value: { runIds: ['R-0002'], copies: [{ ref: '0', runId: 'R-0001' }] } })
    expect(await added()).toHaveLength(2)
  })
})

describe('what a sheet starts from', () => {
  const start = async (machine?: string, day?: string) => {
    const view = await viewRunSheet(store, { machine, day }, NOW)
    if (!view.ok) throw new Error(view.problems.map(sayProblem).join('\n'))
    return view.value
  }
  test('the machine, setting, version, scene, driver, room and kind of low of the last run', async () => {
    await recordRuns(store, sheet([row({ low1MeanFps: 60, scene: 'pier' })]), NOW)
    const view = await start()
    expect(view).toMatchObject({
      ...{ machineTag: 'M-0001', day: '2026-11-24', isToday: true, displayInBoard: false },
      remembered: { runId: 'R-0001', driverVersion: '31.2', roomC: 22, low: 'low1MeanFps' },
      rows: [{ titleId: 'harbor', settingId: '1080-high', titleVersion: '1.1', scene: 'pier' }],
    })
    expect(view.rows[0]?.kept.map(({ id }) => id)).toEqual(['R-0001'])
  })
  test('not the cap or the lower setting that only one machine needed; on that machine and day, those too', async () => {
    const settings = [
      ['setting', 'width_px', 'height_px', 'preset', 'cap_fps', 'lowered_from', 'lowered_what'],
      ['held', '1920', '1080', 'high', '60', '', ''],
      ['less', '1920', '1080', 'high', '', '1080-high', 'shadows'],
    ]
    const machines = [['machine'], ['M-0002']]
    expect((await importShop(store, filesOf({ settings, machines }), NOW)).ok).toBe(true)
    for (const settingId of ['held', 'less']) {
      await recordRuns(store, sheet([row({ settingId, averageFps: 59 })]), NOW)
      expect((await start('M-0001')).rows[0]?.settingId).toBe(settingId)
      expect((await start('M-0002')).rows[0]?.settingId).toBe('1080-high')
      expect((await start('M-0001', '2026-11-23')).rows[0]?.settingId).toBe('1080-high')
    }
  })
  // By the small shop: CARD-A (gen 3) went out on 2026-02-01, CARD-B came in; the B460 board gives gen 3 x16.
  test.each([
    ['2025-06-01', 'CARD-A'],
    ['2026-01-31', 'CARD-A'],
    ['2026-02-01', 'CARD-B'],
  ])('on %s the machine had %s', async (day, cardId) => {
    const { fitted, inside, isToday } = await start('M-0001', day)
    expect(fitted).toMatchObject({ cardId, processorId: 'CPU-A', linkGen: 3, linkLanes: 16, totalGB: 16 })
    expect(inside.filter(({ kind }) => kind === 'card').map(({ id }) => id)).toEqual([cardId])
    expect(isToday).toBe(false)
  })
  test('the card’s link and the memory as its own runs proved them', async () => {
    expect((await start('M-0001')).fitted).toMatchObject({ rateMts: 2666, channels: 2 })
  })
  test('large window and power as somebody noted them, else as the last run says', async () => {
    expect((await start('M-0001')).fitted).not.toHaveProperty('largeBar')
    await recordRuns(store, sheet([row()], { fitted: { ...FITTED, largeBar: true, cardLimitW: 170 } }), NOW)
    expect(await start('M-0001')).toMatchObject({
      setAsIn: 'R-0001',
      fitted: { largeBar: true, cardLimitW: 170 },
    })
    await recordLimit(store, 'M-0001', { key: 'cardSetW', value: 150, source: 'measured' }, NOW)
    expect((await start('M-0001')).fitted).toMatchObject({ largeBar: true, cardLimitW: 150 })
  })
  test('a test bench starts from its own last run', async () => {
    expect((await start('')).fitted).toEqual({})
    await recordRuns(store, sheet([row()], { machineTag: undefined }), NOW)
    expect((await start()).machineTag).toBeUndefined()
    expect((await start('')).fitted).toEqual(FITTED)
  })
  test('a display that sits in the board is told', async () => {
    await recordLimit(store, 'M-0001', { key: 'displayPluggedInto', value: 'board', source: 'measured' }, NOW)
    expect((await start('M-0001')).displayInBoard).toBe(true)
  })
  test('a machine or a day that is none is a problem', async () => {
    expect(await viewRunSheet(store, { machine: 'M-9' }, NOW)).toMatchObject({
      problems: [{ field: 'machine' }],
    })
    expect(await viewRunSheet(store, { day: '2026-02-30' }, NOW)).toMatchObject({
      problems: [{ field: 'day' }],
    })
  })
})

describe('a run that is there', () => {
  const edit = (changes: Partial<RunEdit> = {}): RunEdit => {
    const { ref: _, ...measured } = row()
    return { ...measured, at: NOW, fitted: FITTED, ...changes }
  }
  beforeEach(async () => {
    await recordRuns(store, sheet([row({ low1Fps: 60 })]), NOW)
  })
  test('is corrected whole and keeps its machine', async () => {
    expect(await editRun(store, 'R-0001', edit({ averageFps: 95.5, scene: 'pier' }), NOW)).toMatchObject({
      ok: true,
    })
    const run = await loadRun(store.db, 'R-0001')
    expect(run).toMatchObject({ machineTag: 'M-0001', averageFps: 95.5, scene: 'pier' })
    expect(run).not.toHaveProperty('low1Fps')
  })
  test.each([
    ['low1Fps', { low1Fps: 99 }],
    ['titleVersion', { titleVersion: '3' }],
    ['at', { at: '2026-12-24T15:00:00.000Z' }],
    ['rateMts', { fitted: { ...FITTED, rateMts: undefined } }],
  ])('%s is refused where it cannot be', async (field, changes) => {
    const before = await dump(store)
    expect(await editRun(store, 'R-0001', edit(changes), NOW)).toMatchObject({
      ok: false,
      problems: [{ field }],
    })
    expect(await dump(store)).toEqual(before)
  })
  test('is again what it was once its correction is undone, and corrected again when that is undone too', async () => {
    expect(await undoRunEdit(store, 'R-0001', NOW)).toMatchObject({ problems: [{ code: 'not found' }] })
    await editRun(store, 'R-0001', edit({ averageFps: 95.5, scene: 'pier' }), NOW)
    await editRun(store, 'R-0001', edit({ averageFps: 96, note: 'twice' }), NOW)
    const after = await loadRun(store.db, 'R-0001')
    expect((await undoRunEdit(store, 'R-0001', NOW)).ok).toBe(true)
    expect(await loadRun(store.db, 'R-0001')).toMatchObject({ averageFps: 95.5, scene: 'pier' })
    expect((await undoRunEdit(store, 'R-0001', NOW)).ok).toBe(true)
    expect(await loadRun(store.db, 'R-0001')).toEqual(after)
  })
  test('of which a correction is undone is whole again, with what was left out', async () => {
    const before = await loadRun(store.db, 'R-0001')
    await editRun(store, 'R-0001', edit({ averageFps: 95.5 }), NOW)
    await undoRunEdit(store, 'R-0001', NOW)
    expect(await loadRun(store.db, 'R-0001')).toEqual(before)
  })
  test('is not put back where that would be another one that came since', async () => {
    await editRun(store, 'R-0001', edit({ averageFps: 95.5 }), NOW)
    await recordRuns(store, sheet([row({ low1Fps: 60 })]), NOW)
    expect(await undoRunEdit(store, 'R-0001', NOW)).toMatchObject({ problems: [{ code: 'conflict' }] })
    expect(await loadRun(store.db, 'R-0001')).toMatchObject({ averageFps: 95.5 })
  })
  test('does not become another one', async () => {
    await recordRuns(store, sheet([row({ averageFps: 80 })]), NOW)
    expect(
      await editRun(store, 'R-0001', edit({ averageFps: 80, driverVersion: '31.2', roomC: 22 }), NOW),
    ).toMatchObject({
      problems: [{ code: 'duplicate', field: 'averageFps' }],
    })
  })
  test('goes out and comes back as it was', async () => {
    const before = await listRuns(store.db)
    expect(await takeOutRun(store, 'R-0001', NOW)).toEqual({ ok: true, value: { id: 'R-0001' } })
    expect(await listRuns(store.db)).toHaveLength(before.length - 1)
    expect(await takeOutRun(store, 'R-0001', NOW)).toMatchObject({ problems: [{ code: 'not found' }] })
    expect(await editRun(store, 'R-0001', edit(), NOW)).toMatchObject({ problems: [{ code: 'not found' }] })
    for (let twice = 0; twice < 2; twice++) expect((await bringBackRun(store, 'R-0001')).ok).toBe(true)
    expect(await listRuns(store.db)).toEqual(before)
  })
  test('does not come back beside itself', async () => {
    await takeOutRun(store, 'R-0001', NOW)
    await recordRuns(store, sheet([row({ low1Fps: 60 })]), NOW)
    expect(await bringBackRun(store, 'R-0001')).toMatchObject({
      problems: [{ code: 'conflict', got: 'R-0001' }],
    })
  })
})
