import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Run } from '../../../src/core/gain/run.ts'
import type { Part } from '../../../src/core/part.ts'
import { loadGainStart } from '../../../src/store/gainStart.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { upsertParts } from '../../../src/store/parts.ts'
import { takeRunOut, upsertRuns } from '../../../src/store/runs.ts'
import { upsertSettings, upsertTitles } from '../../../src/store/titles.ts'
import { RUNS_A_PIECE } from '../../../src/uses/gain/gainData.ts'
import { type KeptFit, keepFit } from '../../../src/uses/gain/keptFit.ts'
import type { Asked } from '../../../src/uses/gain/messages.ts'
import { type FitThread, fitThread } from '../../../src/uses/gain/thread.ts'

const STAND_IN = new URL('./standIn.mjs', import.meta.url)
const AT = '2026-06-10T15:00:00.000Z'

let folder: string
let store: Store
let thread: FitThread
let fit: KeptFit
let faults: unknown[]
const open = () => openStore(pathToFileURL(join(folder, 'shop.db')).href)

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-fit-'))
  store = await open()
  thread = fitThread(STAND_IN, 20_000)
  fit = keepFit(store, thread)
  faults = []
  fit.onFault((error) => faults.push(error))
  await store.write(async (tx) => {
    await upsertParts(tx, [
      { id: 'CPU', kind: 'processor', name: 'Ash' } as Part,
      { id: 'CRD', kind: 'card', name: 'Flint' } as Part,
    ])
    await upsertTitles(tx, [{ id: 'moor', name: 'Moor' }])
    const seen = { rayTracing: false, frameGeneration: false }
    await upsertSettings(tx, [{ id: 'high', widthPx: 1920, heightPx: 1080, preset: 'high', ...seen }])
  })
  await addRuns(1, 40)
})
afterEach(async () => {
  await thread.stop()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const run = (n: number, averageFps = 60): Run => ({
  ...{ id: `R-${n}`, at: '2026-05-01T12:00:00.000Z', titleId: 'moor', titleVersion: '1.0' },
  ...{ settingId: 'high', averageFps },
  fitted: {
    ...{ processorId: 'CPU', cardId: 'CRD', link: { gen: 3, lanes: 16 } },
    memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
  },
})
const addRuns = (from: number, to: number, into = store) =>
  into.write((tx) =>
    upsertRuns(
      tx,
      Array.from({ length: to - from + 1 }, (_, i) => run(from + i)),
    ),
  )
const addTitle = (id: string) => store.write((tx) => upsertTitles(tx, [{ id, name: id }]))

/** What the stand-in was asked up to here: fits, added pieces, runs it knows. */
async function soFar(of = fit, at = AT) {
  const excerpt = await of.excerpt(MOOR, at)
  if (excerpt.state !== 'told') return excerpt.state
  const told = excerpt.told as unknown as { fits: number; adds: number; runs: string[] }
  return [told.fits, told.adds, told.runs.length]
}
const MOOR = { wanted: [{ titleId: 'moor', settingId: 'high' }], partIds: [] }
const wanting = (titleId: string) => ({ wanted: [{ titleId, settingId: 'high' }], partIds: [] })

test('it is fitted once, also where many ask at once, and kept', async () => {
  expect(await Promise.all([soFar(), soFar(), soFar()])).toEqual([
    [1, 0, 40],
    [1, 0, 40],
    [1, 0, 40],
  ])
  expect(await soFar()).toEqual([1, 0, 40])
})

test('a run more is taken in; ten percent more are fitted anew', async () => {
  await soFar()
  await addRuns(41, 41)
  expect(await soFar()).toEqual([1, 1, 41])
  await addRuns(42, 44)
  expect(await soFar(), '44 of 40: exactly a tenth').toEqual([1, 2, 44])
  await addRuns(45, 45)
  expect(await soFar(), '45 of 40: above a tenth').toEqual([2, 2, 45])
})

test.each([
  ['edited', () => store.write((tx) => upsertRuns(tx, [run(1, 61)])), 40],
  ['taken out', () => store.write((tx) => takeRunOut(tx, 'R-1', AT)), 39],
] as const)('a run that is %s is fitted anew', async (_, change, left) => {
  await soFar()
  await change()
  expect(await soFar()).toEqual([2, 0, left])
})

test('on a new day it is fitted anew, with ages to the end of that day', async () => {
  await soFar()
  expect(await soFar(fit, '2026-06-10T23:59:00.000Z')).toEqual([1, 0, 40])
  const told = await fit.excerpt(MOOR, '2026-06-11T00:01:00.000Z')
  expect(told).toMatchObject({ told: { fits: 2, at: '2026-06-11T23:59:59.999Z' } })
})

test('what another process writes into the same database counts', async () => {
  await soFar()
  const other = await open()
  await addRuns(41, 41, other)
  expect(await soFar()).toEqual([1, 1, 41])
  await other.write((tx) => takeRunOut(tx, 'R-2', AT))
  expect(await soFar()).toEqual([2, 1, 40])
  await other.close()
})

test('the next fit starts where the last one ended, also in another process', async () => {
  await soFar()
  await expect.poll(() => loadGainStart(store.db)).toMatchObject({ start: { fit: 1 }, runs: 40 })
  const other = await open()
  const otherThread = fitThread(STAND_IN)
  const told = await keepFit(other, otherThread).excerpt(MOOR, AT)
  expect(told).toMatchObject({ told: { start: { name: 'stand-in', fit: 1 } } })
  await otherThread.stop()
  await other.close()
})

test('a fit that fails gives none, is told once, and is tried again when something changes', async () => {
  await addTitle('breaks')
  expect(await soFar()).toBe('failed')
  expect(await soFar(), 'left alone for a while').toBe('failed')
  expect(faults).toHaveLength(1)
  await store.write((tx) => tx.run("delete from titles where id = 'breaks'"))
  expect(await soFar()).toEqual([1, 0, 40])
})

test('one question that it cannot answer leaves the fit as it is', async () => {
  await soFar()
  expect(await fit.excerpt(wanting('breaks'), AT)).toEqual({ state: 'failed' })
  expect(faults).toHaveLength(1)
  expect(await soFar()).toEqual([1, 0, 40])
})

test('a thread that dies gives none for that question; the next one starts another', async () => {
  await soFar()
  expect(await fit.excerpt(wanting('dies'), AT)).toEqual({ state: 'failed' })
  expect(faults).toHaveLength(1)
  expect(await soFar(), 'a new thread counts from the beginning').toEqual([1, 0, 40])
})

test('a thread that never answers is given up', async () => {
  await addTitle('hangs')
  const hasty = fitThread(STAND_IN, 700)
  const hastyFit = keepFit(store, hasty)
  hastyFit.onFault((error) => faults.push(error))
  expect(await soFar(hastyFit)).toBe('failed')
  expect(faults).toHaveLength(1)
  await hasty.stop()
})

test('while it is fitted other work goes on, and whoever will not wait is told how far it is', async () => {
  await addTitle('slow')
  let turns = 0
  const counting = setInterval(() => turns++, 10)
  const asked = soFar()
  await expect.poll(() => fit.underWay()?.runs).toBe(40)
  const hasty = await fit.excerpt(MOOR, AT, 20)
  expect(hasty).toMatchObject({ state: 'under way', progress: { runs: 40 } })
  expect(await fit.within(1, AT)).toMatchObject({ runs: 40 })
  expect(await asked, 'nobody who went away has stopped it').toEqual([1, 0, 40])
  clearInterval(counting)
  expect(turns, 'of some 60 in the 600 ms that the thread was busy').toBeGreaterThan(20)
  expect(fit.underWay()).toBeUndefined()
  expect(await fit.excerpt(MOOR, AT, 2000), 'done, so nobody waits').toMatchObject({ told: { fits: 1 } })
})

test('a run that is edited while it is fitted counts in the next answer', async () => {
  await addTitle('slow')
  const asked = soFar()
  await expect.poll(() => fit.underWay()?.runs).toBe(40)
  await store.write((tx) => takeRunOut(tx, 'R-1', AT))
  await asked
  expect(await soFar()).toEqual([2, 0, 39])
})

test('a thread that is killed in the middle of a fit gives none, and is replaced when something changes', async () => {
  await addTitle('slow')
  const asked = soFar()
  await expect.poll(() => fit.underWay()?.runs).toBe(40)
  await thread.stop()
  expect(await asked).toBe('failed')
  expect(faults).toHaveLength(1)
  expect(fit.underWay()).toBeUndefined()
  await addRuns(41, 41)
  expect(await soFar(), 'a new thread, with all runs').toEqual([1, 0, 41])
})

test('the runs of a large shop go to the thread in pieces, and all of them arrive', async () => {
  await addRuns(41, 3 * RUNS_A_PIECE + 7)
  const letters: Asked[] = []
  const watched: FitThread = {
    ...thread,
    ask: (asked) => {
      letters.push(asked)
      return thread.ask(asked)
    },
  }
  expect(await soFar(keepFit(store, watched))).toEqual([1, 0, 3 * RUNS_A_PIECE + 7])
  const sizes = letters.flatMap((letter) =>
    'runs' in letter && letter.what === 'runs' ? [letter.runs.length] : [],
  )
  expect(sizes).toEqual([RUNS_A_PIECE, RUNS_A_PIECE, RUNS_A_PIECE, 7])
  const longest = Math.max(...letters.map((letter) => JSON.stringify(letter).length))
  expect(longest, 'no letter has more in it than a piece of runs').toBeLessThan(600 * RUNS_A_PIECE)
})

test('a piece of the fit that takes longer than somebody waits is cut out once, and the next look finds it', async () => {
  const cut: Asked[] = []
  const watched: FitThread = {
    ...thread,
    ask: (asked) => {
      if (asked.what === 'excerpt') cut.push(asked)
      return thread.ask(asked)
    },
  }
  const of = keepFit(store, watched)
  expect(await of.excerpt(MOOR, AT)).toMatchObject({ state: 'told' })
  cut.length = 0
  expect(await of.excerpt(wanting('slow'), AT, 20)).toMatchObject({ state: 'under way' })
  expect(await of.excerpt(wanting('slow'), AT, 20)).toMatchObject({ state: 'under way' })
  expect(await of.excerpt(wanting('slow'), AT)).toMatchObject({ state: 'told' })
  expect(await of.excerpt(wanting('slow'), AT, 200)).toMatchObject({ state: 'told' })
  expect(cut).toHaveLength(1)
  // Of another fit it is another piece.
  await addRuns(41, 41)
  expect(await of.excerpt(wanting('slow'), AT)).toMatchObject({ state: 'told' })
  expect(cut).toHaveLength(2)
})
