import { LOG_MAX_BYTES, LOGS_AT_ONCE } from '../core/frames/log.ts'
import type { Cell } from '../input/cells.ts'
import { keptChoice, noColumn, readChoice, type TypedChoice } from '../input/frameLog/choice.ts'
import type { Choice, Guess } from '../input/frameLog/guess.ts'
import type { Layout } from '../input/frameLog/layout.ts'
import { type LogSource, type LogStudy, openLog, studyLog } from '../input/frameLog/read.ts'
import { plainNumber } from '../input/numbers.ts'
import { Refusal } from '../input/refusal.ts'
import { fps, lowFps } from '../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import {
  deleteFrameLog,
  type FrameLogLine,
  frameLogBytes,
  keepFrameLog,
  listFrameLogs,
  loadFrameLog,
  setFrameLogChoice,
} from '../store/frameLogs.ts'
import type { Store } from '../store/open.ts'
import { type Recorded, recordSheet, type Sheet, type SheetRow } from './runs/recordRuns.ts'

export type { FrameLogLine } from '../store/frameLogs.ts'

/** A log as it is read by one choice. */
export type ReadLog = {
  readonly log: FrameLogLine
  readonly layout: Layout
  /** Absent while it is being read. */
  readonly study?: LogStudy | undefined
}

export type FrameLogsView = {
  readonly logs: readonly ReadLog[]
  readonly choice: Choice
  /** What the figures' shape says; what was picked may be something else. */
  readonly guess: Guess
  /** How much is read, from 0 to 1, while not all of it is; then ask again. */
  readonly share?: number | undefined
  /** Kept logs that are not among these, the newest first. */
  readonly others: readonly FrameLogLine[]
}

/** What runs of logs have in common. */
export type LogSheet = Omit<Sheet, 'rows' | 'at'> &
  Pick<
    SheetRow,
    | 'titleId'
    | 'settingId'
    | 'titleVersion'
    | 'isNewVersion'
    | 'scene'
    | 'processorLoadC'
    | 'cardLoadC'
    | 'noiseDba'
    | 'note'
  >

export type FrameLogUses = {
  frameLogs(): Promise<readonly FrameLogLine[]>
  /** Keeps a log as it comes in. Fields of its problems: `log`. */
  addFrameLog(
    name: string,
    bytes: AsyncIterable<Uint8Array>,
  ): Promise<Result<{ readonly id: string; readonly wasKept: boolean }>>
  /** Reads captures of one thing. Waits a moment; longer logs are read on while it answers with their share. */
  readFrameLogs(ids: readonly string[], typed: TypedChoice): Promise<Result<FrameLogsView>>
  /** One run a log, all or none, on a day of the shop (`2026-03-04`; undefined: now). Fields of its problems: those of the sheet, and `log`. */
  saveFrameLogs(
    ids: readonly string[],
    typed: TypedChoice,
    sheet: LogSheet,
    day: string | undefined,
  ): Promise<Result<Recorded>>
  /** Only where no run was saved from it. */
  forgetFrameLog(id: string): Promise<Result<{ readonly name: string }>>
  /** The file as it was uploaded. */
  originalFrameLog(
    id: string,
  ): Promise<
    Result<{ readonly name: string; readonly size: number; readonly bytes: AsyncIterable<Uint8Array> }>
  >
}

type Reading = { share: number; readonly study: Promise<Result<LogStudy>>; done?: Result<LogStudy> }

/** How long a page waits for a log before it says how far it is. */
const PATIENCE_MS = 1500
/** Figures of logs that were read lately; each is some 50 kB. */
const READINGS_KEPT = 48

/** Keeps, reads and forgets logs. One for the process: it remembers what is being read. */
export function frameLogsOf(store: Store, now: () => string, patienceMs = PATIENCE_MS): FrameLogUses {
  const { db } = store
  const readings = new Map<string, Reading>()
  /** One log after the other: two at once would take as long, and twice the memory. */
  let lane: Promise<unknown> = Promise.resolve()

  const sourceOf = ({ id, name, size }: FrameLogLine): LogSource => ({
    ...{ name, size },
    bytes: () => frameLogBytes(db, id),
  })

  const readingOf = (log: FrameLogLine, layout: Layout, choice: Choice): Reading => {
    const key = `${log.id} ${JSON.stringify(choice)}`
    const known = readings.get(key)
    if (known !== undefined) return known
    const study = lane.then(() =>
      studyLog(sourceOf(log), layout, choice, (share) => {
        reading.share = share
      }),
    )
    const reading: Reading = { share: 0, study }
    lane = study.then(
      (done) => {
        reading.done = done
      },
      () => readings.delete(key),
    )
    readings.set(key, reading)
    for (const old of readings.keys()) {
      if (readings.size <= READINGS_KEPT) break
      if (readings.get(old)?.done !== undefined) readings.delete(old)
    }
    return reading
  }

  /** The logs, how they are written, and how they are to be read. */
  const open = async (ids: readonly string[], typed: TypedChoice) => {
    const logs: { log: FrameLogLine; layout: Layout; guess: Guess }[] = []
    if (ids.length > LOGS_AT_ONCE) return failed(tooMany(ids.length))
    for (const id of new Set(ids)) {
      const log = await loadFrameLog(db, id)
      if (log === undefined) return failed(noSuchLog(id))
      const opened = await openLog(sourceOf(log))
      if (!opened.ok) return opened
      logs.push({ log, ...opened.value })
    }
    const [first] = logs
    if (first === undefined) return failed(noSuchLog(''))
    const before = keptChoice(first.log.choice)
    const usual = before !== undefined && isIn(before, first.layout) ? before : first.guess.choice
    const choice = readChoice(typed, usual, first.layout)
    if (!choice.ok) return choice
    for (const { log, layout } of logs)
      if (!isIn(choice.value, layout)) {
        const problem = noColumn('log', log.name, layout.columns)
        const next = `${log.name} has no figures in column ${choice.value.column + 1}. ${problem.next}`
        return failed({ ...problem, next })
      }
    return ok({ logs, choice: choice.value, guess: first.guess })
  }

  return {
    frameLogs: () => listFrameLogs(db),

    addFrameLog: async (name, bytes) => {
      try {
        return ok(await keepFrameLog(store, { name, addedAt: now() }, withinLimit(bytes)))
      } catch (error) {
        return error instanceof TooLong ? failed(tooLong(name)) : Promise.reject(error)
      }
    },

    readFrameLogs: async (ids, typed) => {
      const opened = await open(ids, typed)
      if (!opened.ok) return opened
      const { logs, choice, guess } = opened.value
      const all = logs.map(({ log, layout }) => ({ log, layout, reading: readingOf(log, layout, choice) }))
      await within(patienceMs, Promise.all(all.map(({ reading }) => reading.study)))
      const broken = all.flatMap(({ reading: { done } }) => (done?.ok === false ? done.problems : []))
      if (broken.length > 0) return failed(...broken)
      const bytes = all.reduce((sum, { log }) => sum + log.size, 0)
      const read = all.reduce(
        (sum, { log, reading }) => sum + log.size * (reading.done ? 1 : reading.share),
        0,
      )
      const isDone = all.every(({ reading }) => reading.done !== undefined)
      return ok({
        logs: all.map(({ log, layout, reading: { done } }) => ({
          ...{ log, layout },
          ...(done?.ok && { study: done.value }),
        })),
        ...{ choice, guess },
        ...(!isDone && { share: bytes === 0 ? 0 : read / bytes }),
        others: (await listFrameLogs(db)).filter(({ id }) => !ids.includes(id)),
      })
    },

    saveFrameLogs: async (ids, typed, sheet, day) => {
      const opened = await open(ids, typed)
      if (!opened.ok) return opened
      const { logs, choice } = opened.value
      const rows: SheetRow[] = []
      const { machineTag, driverVersion, roomC, fitted, ...shared } = sheet
      for (const { log, layout } of logs) {
        const study = await readingOf(log, layout, choice).study
        if (!study.ok) return study
        if (study.value.figures === undefined) return failed(noFrames(log.name))
        const { averageFps, low1Fps, low1MeanFps, low01Fps, low01MeanFps } = study.value.figures
        const lows = { low1Fps, low1MeanFps, low01Fps, low01MeanFps }
        if (!isRate(fps, averageFps) || !Object.values(lows).every((low) => isRate(lowFps, low)))
          return failed(noRate(log.name))
        rows.push({ ref: log.id, ...shared, averageFps, ...lows, logId: log.id })
      }
      const saved = await recordSheet(store, { machineTag, driverVersion, roomC, fitted, rows }, day, now())
      if (!saved.ok) return failed(...withoutRefs(saved.problems))
      await store.write((tx) =>
        setFrameLogChoice(
          tx,
          logs.map(({ log }) => log.id),
          choice,
        ),
      )
      return saved
    },

    forgetFrameLog: async (id) => {
      const log = await loadFrameLog(db, id)
      if (log === undefined) return failed(noSuchLog(id))
      if (log.runIds.length > 0) {
        const next = `${log.runIds.join(', ')} came from this log, so it stays: it is what the figures are traced to.`
        return failed({ code: 'conflict', field: 'log', got: log.name, next })
      }
      await store.write((tx) => deleteFrameLog(tx, id))
      return ok({ name: log.name })
    },

    originalFrameLog: async (id) => {
      const log = await loadFrameLog(db, id)
      if (log === undefined) return failed(noSuchLog(id))
      return ok({ name: log.name, size: log.size, bytes: frameLogBytes(db, id) })
    },
  }
}

/** Within what a run may have, so that it is imported again from its export. */
const isRate = (cell: Cell<number>, rate: number | undefined): boolean =>
  rate === undefined || !(cell.read(plainNumber(rate), AS_WRITTEN) instanceof Refusal)
const AS_WRITTEN = { decimalMark: '.', currencyDigits: 2, timeZone: 'UTC' } as const

/** Waits for it, but no longer than that. What goes wrong is thrown only if it does so in time. */
async function within(ms: number, work: Promise<unknown>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined
  const late = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, ms)
  })
  work.catch(() => {})
  await Promise.race([work, late])
  clearTimeout(timer)
}

const isIn = ({ column, unshown }: Choice, { columns }: Layout): boolean =>
  columns[column]?.isNumeric === true && (unshown === undefined || columns[unshown.column] !== undefined)

/** All rows of a sheet of logs share their fields, so a problem is told once, without the row. */
function withoutRefs(problems: readonly Problem[]): Problem[] {
  const told = new Map<string, Problem>()
  for (const problem of problems) {
    const field = problem.field.replace(/\.\d+$/, '')
    told.set(`${field} ${problem.next}`, { ...problem, field })
  }
  return [...told.values()]
}

class TooLong extends Error {}

async function* withinLimit(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let length = 0
  for await (const piece of bytes) {
    length += piece.length
    if (length > LOG_MAX_BYTES) throw new TooLong()
    yield piece
  }
}

const noSuchLog = (got: string): Problem => ({
  ...{ code: 'not found', field: 'log', got },
  next: 'There is no such frame-time log. The list of logs shows them all.',
})
const tooMany = (count: number): Problem => ({
  ...{ code: 'too many', field: 'log', got: String(count) },
  next: `At most ${LOGS_AT_ONCE} logs are read together. Leave some out.`,
})
const tooLong = (name: string): Problem => ({
  ...{ code: 'not allowed', field: 'log', got: name },
  next: `This log is longer than ${LOG_MAX_BYTES / 1024 / 1024} MB. Cut it, or log fewer columns.`,
})
const noRate = (got: string): Problem => ({
  ...{ code: 'not allowed', field: 'log', got, allowed: fps.allowed },
  next: `A run takes ${fps.allowed} on average, and slow moments of ${lowFps.allowed}. Look whether column and unit are right.`,
})
const noFrames = (name: string): Problem => ({
  ...{ code: 'not allowed', field: 'log', got: name },
  next: 'No row of it gave a frame, so there is nothing to save. Pick another column.',
})
