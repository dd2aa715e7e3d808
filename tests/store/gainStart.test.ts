import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { eq } from 'drizzle-orm'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { runs, titles } from '../../db/schema.ts'
import type { Run } from '../../src/core/gain/run.ts'
import type { Part } from '../../src/core/part.ts'
import { gainRevision, loadGainStart, runIds, saveGainStart } from '../../src/store/gainStart.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { upsertParts } from '../../src/store/parts.ts'
import { takeRunOut, upsertRuns } from '../../src/store/runs.ts'
import { upsertSettings, upsertTitles } from '../../src/store/titles.ts'

let folder: string
let store: Store
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-gain-'))
  store = await openStore(pathToFileURL(join(folder, 'shop.db')).href)
  await store.write(async (tx) => {
    await upsertParts(tx, [PROCESSOR, CARD, DRIVE])
    await upsertTitles(tx, [{ id: 'moor', name: 'Moor' }])
    await upsertSettings(tx, [SETTING])
    await upsertRuns(tx, [run('R-0001')])
  })
})
afterEach(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const PROCESSOR = { id: 'CPU', kind: 'processor', name: 'Ash' } as Part
const CARD = { id: 'CRD', kind: 'card', name: 'Flint' } as Part
const DRIVE = { id: 'DRV', kind: 'drive', name: 'Loam' } as Part
const SETTING = {
  ...{ id: '1080-high', widthPx: 1920, heightPx: 1080, preset: 'high' },
  ...{ rayTracing: false, frameGeneration: false },
}

const run = (id: string, averageFps = 60): Run => ({
  ...{
    id,
    at: '2026-05-01T12:00:00.000Z',
    titleId: 'moor',
    titleVersion: '1.0',
    settingId: '1080-high',
    averageFps,
  },
  fitted: {
    ...{ processorId: 'CPU', cardId: 'CRD', link: { gen: 3, lanes: 16 } },
    memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
  },
})

/** What a change adds to both counts. */
async function counted(change: (tx: Parameters<Parameters<Store['write']>[0]>[0]) => Promise<unknown>) {
  const before = await gainRevision(store.db)
  await store.write(change)
  const after = await gainRevision(store.db)
  return [after.runsAdded - before.runsAdded, after.changed - before.changed]
}

test.each([
  ['a run more', (tx) => upsertRuns(tx, [run('R-0002')]), [1, 0]],
  [
    'three runs more',
    (tx) =>
      upsertRuns(
        tx,
        ['R-2', 'R-3', 'R-4'].map((id) => run(id)),
      ),
    [3, 0],
  ],
  ['a run edited', (tx) => upsertRuns(tx, [run('R-0001', 61)]), [0, 1]],
  ['one edited, one more', (tx) => upsertRuns(tx, [run('R-0001', 61), run('R-0002')]), [1, 1]],
  ['a run taken out', (tx) => takeRunOut(tx, 'R-0001', '2026-06-01T12:00:00.000Z'), [0, 1]],
  ['a run deleted', (tx) => tx.delete(runs).where(eq(runs.id, 'R-0001')), [0, 1]],
  [
    'what a title wants',
    (tx) => tx.update(titles).set({ graphicsMemoryGB: 8 }).where(eq(titles.id, 'moor')),
    [0, 1],
  ],
  ['a figure of a card', (tx) => upsertParts(tx, [{ ...CARD, memoryGB: 8 } as Part]), [0, 1]],
  ['a card as it was', (tx) => upsertParts(tx, [CARD]), [0, 0]],
  ['a card more', (tx) => upsertParts(tx, [{ ...CARD, id: 'CRD-2' }]), [0, 1]],
  ['a drive more', (tx) => upsertParts(tx, [{ ...DRIVE, id: 'DRV-2' }]), [0, 0]],
] as readonly [string, Parameters<typeof counted>[0], number[]][])(
  '%s is counted, whoever writes it',
  async (_, change, counts) => {
    expect(await counted(change)).toEqual(counts)
  },
)

test('what is rolled back is not counted', async () => {
  const before = await gainRevision(store.db)
  const failing = store.write(async (tx) => {
    await upsertRuns(tx, [run('R-0002')])
    throw new Error('on purpose')
  })
  await expect(failing).rejects.toThrow()
  expect(await gainRevision(store.db)).toEqual(before)
})

test('runs that were taken out are not among the ids', async () => {
  await store.write((tx) => upsertRuns(tx, [run('R-0002')]))
  await store.write((tx) => takeRunOut(tx, 'R-0001', '2026-06-01T12:00:00.000Z'))
  expect(await runIds(store.db)).toEqual(['R-0002'])
})

test('there is one start, the newest, and it comes back as it was', async () => {
  expect(await loadGainStart(store.db)).toBeUndefined()
  const first = {
    start: { name: 'm', x: [0.1, -1e-17] },
    runs: 1,
    tookMs: 20,
    at: '2026-06-01T12:00:00.000Z',
  }
  await store.write((tx) => saveGainStart(tx, first))
  expect(await loadGainStart(store.db)).toEqual(first)
  const second = { ...first, start: { name: 'm', x: [0.2] }, runs: 2 }
  await store.write((tx) => saveGainStart(tx, second))
  expect(await loadGainStart(store.db)).toEqual(second)
})
