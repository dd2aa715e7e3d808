import { gunzipSync } from 'node:zlib'
import { asc, sql } from 'drizzle-orm'
import { beforeEach, describe, expect, test } from 'vitest'
import { frameLogPieces } from '../../db/schema.ts'
import { sayProblem } from '../../src/problem.ts'
import type { Store } from '../../src/store/open.ts'
import { listRuns } from '../../src/store/runs.ts'
import { exportTable } from '../../src/uses/exportShop.ts'
import { type FrameLogUses, frameLogsOf, type LogSheet } from '../../src/uses/frameLogs.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { gameLike } from '../core/frames/feed.ts'
import { logOf } from '../input/frameLog/logs.ts'
import { filesOf, SMALL_SHOP, type Tables } from '../input/smallShop.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const NOW = '2026-11-24T15:04:05.678Z'

/** A title, invented, with versions. */
const TITLES: Tables = {
  titles: [
    ['title', 'name', 'versions'],
    ['harbor', 'Invented Harbor', '1.0=2025-01-01; 1.1=2026-01-15'],
  ],
}

/** 990 frames of 10 ms and ten longer ones: the sample of "1 % low definitions in use" (values by NumPy 2.4.6). */
const SAMPLE = [...Array.from({ length: 990 }, () => 10), 20, 22, 24, 26, 28, 30, 32, 34, 36, 48].join('\n')

let store: Store
let uses: FrameLogUses
beforeEach(async () => {
  store = await temporaryStore()
  uses = frameLogsOf(store, () => NOW)
  for (const tables of [SMALL_SHOP, TITLES]) {
    const imported = await importShop(store, filesOf(tables), NOW)
    if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
  }
})

const SHEET: LogSheet = {
  machineTag: 'm-0001',
  fitted: {
    ...{
      processorId: 'CPU-A',
      cardId: 'CARD-B',
      memoryType: 'DDR4',
      rateMts: 2666,
      channels: 2,
      totalGB: 16,
    },
    ...{ linkGen: 3, linkLanes: 16 },
  },
  ...{
    titleId: 'harbor',
    settingId: '1080-high',
    titleVersion: '1.1',
    driverVersion: '31.2',
    scene: 'the pier',
  },
}

async function added(content: string | Uint8Array, name = 'evening.csv'): Promise<string> {
  const kept = await uses.addFrameLog(name, logOf(content).bytes())
  if (!kept.ok) throw new Error(kept.problems.map(sayProblem).join('\n'))
  return kept.value.id
}

async function bytesOf(id: string): Promise<Buffer> {
  const original = await uses.originalFrameLog(id)
  if (!original.ok) throw new Error('no such log')
  const pieces: Uint8Array[] = []
  for await (const piece of original.value.bytes) pieces.push(piece)
  return Buffer.concat(pieces)
}

const viewed = async (...[ids, typed]: Parameters<FrameLogUses['readFrameLogs']>) => {
  const view = await uses.readFrameLogs(ids, typed)
  if (!view.ok) throw new Error(view.problems.map(sayProblem).join('\n'))
  return view.value
}

/** Bytes that gzip cannot make smaller, by a fixed rule (Lehmer, Park and Miller 1988). */
function noise(length: number): Buffer {
  let state = 11
  return Buffer.from(
    Array.from({ length }, () => {
      state = (state * 48271) % 2147483647
      return state & 255
    }),
  )
}

describe('a log that is kept', () => {
  test('comes back byte for byte, and is kept in pieces of at most 1 MB that are one gzip file (RFC 1952)', async () => {
    const content = noise(2_345_678)
    const id = await added(content)
    expect((await bytesOf(id)).equals(content)).toBe(true)
    const pieces = await store.db.select().from(frameLogPieces).orderBy(asc(frameLogPieces.position))
    expect(pieces.map(({ bytes }) => bytes.length).slice(0, -1)).toEqual([1_000_000, 1_000_000])
    expect(gunzipSync(Buffer.concat(pieces.map(({ bytes }) => bytes))).equals(content)).toBe(true)
  })

  test('is small: figures of a game take less than half of their text', async () => {
    await added(gameLike(50_000).join('\n'))
    const [log] = await uses.frameLogs()
    expect(log).toMatchObject({ name: 'evening.csv', addedAt: NOW, runIds: [] })
    expect(log?.keptBytes).toBeLessThan((log?.size ?? 0) / 2)
  })

  test('the same bytes under another name are the same log', async () => {
    const first = await added(SAMPLE)
    const again = await uses.addFrameLog('copy.csv', logOf(SAMPLE, 100).bytes())
    expect(again).toEqual({ ok: true, value: { id: first, wasKept: true } })
    expect(await uses.frameLogs()).toHaveLength(1)
  })

  test.each([
    ['one byte', Buffer.from('x')],
    ['nothing', Buffer.alloc(0)],
  ])('%s is kept as it is', async (_, content) => {
    expect((await bytesOf(await added(content))).equals(content)).toBe(true)
  })

  test('a log whose end never comes leaves nothing behind', async () => {
    const before = await dump(store)
    async function* broken() {
      yield noise(1_500_000)
      throw new Error('the line went down')
    }
    await expect(uses.addFrameLog('half.csv', broken())).rejects.toThrow('the line went down')
    const after = await dump(store)
    expect({ ...after, sqlite_sequence: [] }).toEqual({ ...before, sqlite_sequence: [] })
  })

  test('while it comes in nothing shows it, and others may write', async () => {
    let rest: () => void = () => {}
    const half = new Promise<void>((resolve) => {
      rest = resolve
    })
    async function* slow() {
      yield noise(1_500_000)
      await half
      yield Buffer.from('end')
    }
    const adding = uses.addFrameLog('slow.csv', slow())
    const other = await added(SAMPLE)
    expect((await uses.frameLogs()).map(({ id }) => id)).toEqual([other])
    rest()
    expect((await adding).ok).toBe(true)
    expect(await uses.frameLogs()).toHaveLength(2)
  })

  test('what a stopped program left half way is gone a day later', async () => {
    await store.db.run(
      sql`insert into frame_logs (name, added_at) values ('left.csv', '2026-11-22T10:00:00.000Z')`,
    )
    await store.db.run(
      sql`insert into frame_log_pieces (log_id, position, bytes) select id, 0, x'1f' from frame_logs`,
    )
    await store.db.run(
      sql`insert into frame_logs (name, added_at) values ('now.csv', '2026-11-24T10:00:00.000Z')`,
    )
    await added(SAMPLE)
    const names = await store.db.all<{ name: string }>(sql`select name from frame_logs order by id`)
    expect(names.map(({ name }) => name)).toEqual(['now.csv', 'evening.csv'])
    expect(await store.db.all(sql`select * from frame_log_pieces where position = 0`)).toHaveLength(1)
  })
})

describe('a log that is read', () => {
  test('as guessed, with its figures and rows', async () => {
    const view = await viewed([await added(SAMPLE)], {})
    expect(view.choice).toEqual({ column: 0, as: 'frame time', unit: 'ms' })
    expect(view.share).toBeUndefined()
    const figures = view.logs[0]?.study?.figures
    expect(figures?.averageFps).toBeCloseTo(98.039216, 6)
    expect(figures?.low1Fps).toBeCloseTo(99.01, 2)
    expect(figures?.low1MeanFps).toBeCloseTo(33.333, 3)
  })

  test('another way, as often as one likes', async () => {
    const id = await added(SAMPLE)
    for (const [unit, fps] of [
      ['us', 98039.216],
      ['ms', 98.039216],
    ] as const) {
      const { logs } = await viewed([id], { unit })
      expect((logs[0]?.study?.figures?.averageFps ?? 0) / fps).toBeCloseTo(1, 6)
    }
  })

  test('with no patience it says how far it is, and has the figures in the end', async () => {
    uses = frameLogsOf(store, () => NOW, 0)
    const id = await added(gameLike(300_000).join('\n'))
    const shares: number[] = []
    for (let turn = 0; turn < 10_000; turn++) {
      const { share, logs } = await viewed([id], {})
      if (share === undefined) {
        expect(logs[0]?.study?.figures?.frames).toBe(300_000)
        break
      }
      expect(logs[0]?.study).toBeUndefined()
      shares.push(share)
    }
    expect(shares.length).toBeGreaterThan(0)
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
  })

  test.each([
    ['no log', [['9'], {}], 'not found', 'log'],
    ['no id', [['x; drop table runs'], {}], 'not found', 'log'],
    ['none at all', [[], {}], 'not found', 'log'],
    ['a column that is not there', [['1'], { column: '7' }], 'not allowed', 'column'],
    ['a unit nobody has', [['1'], { unit: 'weeks' }], 'unknown name', 'unit'],
    ['too many', [Array.from({ length: 13 }, (_, i) => String(i)), {}], 'too many', 'log'],
  ] as const)('%s is told', async (_, [ids, typed], code, field) => {
    await added(SAMPLE)
    expect(await uses.readFrameLogs(ids, typed)).toMatchObject({ ok: false, problems: [{ code, field }] })
  })

  test('captures that are written otherwise are not mixed up', async () => {
    const one = await added(
      `a,b\n${gameLike(50)
        .map((ms, i) => `${i},${ms}`)
        .join('\n')}`,
      'two columns.csv',
    )
    const other = await added(SAMPLE, 'one column.csv')
    const view = await uses.readFrameLogs([one, other], {})
    expect(view).toMatchObject({ ok: false, problems: [{ field: 'log', got: 'one column.csv' }] })
  })
})

describe('runs from logs', () => {
  const typed = { column: '1', as: 'frame time', unit: 'ms' }

  test('one a capture, with the log’s figures; the log then opens as it was read', async () => {
    const ids = [await added(SAMPLE), await added(gameLike(12_000).join('\n'))]
    const saved = await uses.saveFrameLogs(ids, typed, SHEET, undefined)
    expect(saved).toEqual({ ok: true, value: { runIds: ['R-0001', 'R-0002'], copies: [] } })
    const [first, second] = (await listRuns(store.db)).filter(({ logId }) => logId !== undefined)
    expect(first).toMatchObject({
      id: 'R-0001',
      machineTag: 'M-0001',
      at: NOW,
      logId: ids[0],
      scene: 'the pier',
    })
    expect(first?.low1Fps).toBeCloseTo(99.01, 2)
    expect(first?.low1MeanFps).toBeCloseTo(33.333, 3)
    // 1000 frames: no 0.1 % low (common practice).
    expect([first?.low01Fps, first?.low01MeanFps]).toEqual([undefined, undefined])
    expect(second?.low01Fps).toBeGreaterThan(0)
    expect((await uses.frameLogs()).map(({ runIds }) => runIds)).toEqual([['R-0002'], ['R-0001']])
  })

  test('a choice that was saved is how it opens next time', async () => {
    const id = await added(SAMPLE)
    await uses.saveFrameLogs([id], { ...typed, as: 'time stamp' }, SHEET, undefined)
    const view = await viewed([id], {})
    expect(view.choice.as).toBe('time stamp')
    expect(view.guess.choice.as).toBe('frame time')
  })

  test('saved twice it is one run', async () => {
    const id = await added(SAMPLE)
    await uses.saveFrameLogs([id], typed, SHEET, undefined)
    expect(await uses.saveFrameLogs([id], typed, SHEET, undefined)).toMatchObject({
      value: { runIds: [], copies: [{ runId: 'R-0001' }] },
    })
  })

  test('a pause of seconds brings the average below the 1% low; the run is kept all the same', async () => {
    // 2000 frames of 10 ms and one of 9 s: 2001 / 29 s = 69 FPS, while 99 of 100 frames take 10 ms: 100 FPS.
    const id = await added([...Array.from({ length: 2000 }, () => 10), 9000].join('\n'))
    expect((await uses.saveFrameLogs([id], typed, SHEET, undefined)).ok).toBe(true)
    const [run] = (await listRuns(store.db)).filter(({ logId }) => logId === id)
    expect(run?.averageFps).toBeCloseTo(69, 9)
    expect(run?.low1Fps).toBeCloseTo(100, 9)
  })

  test.each([
    ['a title nobody has', { titleId: 'x' }, 'title'],
    ['a version nobody listed', { titleVersion: '9' }, 'titleVersion'],
    ['what ran is not known', { fitted: {} }, 'processorId'],
    ['a machine nobody sold', { machineTag: 'M-9' }, 'machine'],
  ])('%s: nothing is saved, and the field is told once', async (_, changes, field) => {
    const ids = [await added(SAMPLE), await added(gameLike(50).join('\n'))]
    const before = await dump(store)
    const saved = await uses.saveFrameLogs(ids, typed, { ...SHEET, ...changes }, undefined)
    if (saved.ok) throw new Error('it was saved')
    expect(saved.problems.filter((p) => p.field === field)).toHaveLength(1)
    expect(await dump(store)).toEqual(before)
  })

  test.each([
    ['a menu at 2,500 FPS', Array.from({ length: 50 }, () => 0.4), 'ms'],
    ['the wrong unit', Array.from({ length: 50 }, () => 16), 'us'],
    ['less than one frame a second', Array.from({ length: 50 }, () => 1100), 'ms'],
  ])('%s is no run: the import takes 1 to 2000 FPS, so nothing else may get in', async (_, frames, unit) => {
    const id = await added(frames.join('\n'))
    const saved = await uses.saveFrameLogs([id], { ...typed, unit }, SHEET, undefined)
    expect(saved).toMatchObject({ ok: false, problems: [{ field: 'log', code: 'not allowed' }] })
  })

  test('a run from a log goes out as a table and comes in again unchanged', async () => {
    const id = await added([...gameLike(12_000), 9000].join('\n'))
    await uses.saveFrameLogs([id], typed, SHEET, undefined)
    const before = (await listRuns(store.db)).find(({ logId }) => logId === id)
    const table = await exportTable(store, 'runs')
    if (!table.ok) throw new Error('no table of runs')
    const files = [{ name: 'runs.csv', bytes: Buffer.from(table.value.text) }]
    expect(await importShop(store, files, NOW)).toMatchObject({
      ok: true,
      value: { tables: [{ changed: 0, added: 0 }] },
    })
    expect((await listRuns(store.db)).find(({ logId }) => logId === id)).toEqual(before)
  })

  test('a log without a frame is no run', async () => {
    const id = await added('0\n0\n0\n')
    expect(await uses.saveFrameLogs([id], typed, SHEET, undefined)).toMatchObject({
      problems: [{ field: 'log', code: 'not allowed' }],
    })
  })
})

test('a log is forgotten only where no run came from it', async () => {
  const [kept, gone] = [await added(SAMPLE), await added(gameLike(50).join('\n'))]
  await uses.saveFrameLogs([kept], {}, SHEET, undefined)
  expect(await uses.forgetFrameLog(kept)).toMatchObject({ ok: false, problems: [{ code: 'conflict' }] })
  expect(await uses.forgetFrameLog(gone)).toMatchObject({ ok: true })
  expect((await uses.frameLogs()).map(({ id }) => id)).toEqual([kept])
  expect(await uses.forgetFrameLog(gone)).toMatchObject({ problems: [{ code: 'not found' }] })
})
