import { keptChoice, readChoice } from '../../src/input/frameLog/choice.ts'
import { type Choice, type Guess, guessOf } from '../../src/input/frameLog/guess.ts'
import { layoutOf } from '../../src/input/frameLog/layout.ts'
import { studyLog } from '../../src/input/frameLog/read.ts'
import { failed, ok } from '../../src/problem.ts'
import type { FrameLogLine, FrameLogUses } from '../../src/uses/frameLogs.ts'
import { gameLike } from '../core/frames/feed.ts'
import { logOf } from '../input/frameLog/logs.ts'
import { NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

/** An evening's capture: time stamps in s, frame times in ms, a load that no frame is told by, and which were shown. */
export function eveningLog(frames: number, seed: number): string {
  let at = 0
  const rows = gameLike(frames, seed).map((ms, i) => {
    at += ms
    return `${(at / 1000).toFixed(6)},${ms},${90 + (i % 7)},${i % 997 === 5 ? 0 : 1}`
  })
  return `an evening, route by the harbour\nt,step,load,seen\n${rows.join('\n')}\n`
}

const texts: Readonly<Record<string, string>> = {
  '1': eveningLog(12_000, 7),
  '2': eveningLog(700, 8),
  /** Guessed wrong: frames of 0.45 ms look like seconds, because nobody runs 2,200 FPS but in a menu. */
  '3': `${gameLike(1500)
    .map((ms) => (ms / 31).toFixed(4))
    .join('\n')}\n`,
}

export const cannedLogLine = (id: string, changes: Partial<FrameLogLine> = {}): FrameLogLine => ({
  ...{
    id,
    name: `evening-${id}.csv`,
    addedAt: NOW,
    size: texts[id]?.length ?? 0,
    keptBytes: 90_000,
    runIds: [],
  },
  ...changes,
})

const lines = () => [
  cannedLogLine('2'),
  cannedLogLine('3', { name: 'menu.csv' }),
  cannedLogLine('1', { runIds: ['R-0009'] }),
]

const noSuchLog = (got: string) =>
  failed({ code: 'not found', field: 'log', got, next: 'There is no such frame-time log.' })

function opened(id: string) {
  const layout = layoutOf(Buffer.from(texts[id] ?? ''), `evening-${id}.csv`)
  if (!layout.ok) throw new Error('a canned log that is none')
  return { layout: layout.value, guess: guessOf(layout.value) as Guess }
}

/** Logs of a shop that keeps three. Figures are computed by the real reader; nothing is stored. */
export const cannedFrameLogUses = (note: (name: string, ...given: unknown[]) => void): FrameLogUses => ({
  frameLogs: async () => lines(),
  addFrameLog: async (name, bytes) => {
    let length = 0
    for await (const piece of bytes) length += piece.length
    note('addFrameLog', name, length)
    return ok({ id: '1', wasKept: false })
  },
  readFrameLogs: async (ids, typed) => {
    const logs = lines().filter(({ id }) => ids.includes(id))
    const [first] = logs
    if (first === undefined || logs.length < ids.length) return noSuchLog(ids.join(','))
    const { layout, guess } = opened(first.id)
    const choice = readChoice(typed, keptChoice(first.choice) ?? guess.choice, layout)
    if (!choice.ok) return choice
    const read = await Promise.all(logs.map((log) => readLog(log, choice.value)))
    return ok({
      logs: read,
      choice: choice.value,
      guess,
      others: lines().filter(({ id }) => !ids.includes(id)),
    })
  },
  saveFrameLogs: async (ids, typed, sheet, day) => {
    note('saveFrameLogs', ids, typed, sheet, day)
    return ok({ runIds: ids.map((id) => `R-100${id}`), copies: [] })
  },
  forgetFrameLog: async (id) => {
    note('forgetFrameLog', id)
    return ok({ name: cannedLogLine(id).name })
  },
  originalFrameLog: async (id) => {
    const text = texts[id]
    if (text === undefined) return noSuchLog(id)
    return ok({ name: cannedLogLine(id).name, size: text.length, bytes: logOf(text).bytes() })
  },
})

async function readLog(log: FrameLogLine, choice: Choice) {
  const { layout } = opened(log.id)
  const study = await studyLog(logOf(texts[log.id] ?? ''), layout, choice)
  if (!study.ok) throw new Error('a canned log that is none')
  return { log, layout, study: study.value }
}

const reading = async (uses: FrameLogUses) => {
  const view = await uses.readFrameLogs(['1'], {})
  if (!view.ok) throw new Error('a canned log that is none')
  const logs = view.value.logs.map(({ log, layout }) => ({ log, layout }))
  return ok({ ...view.value, logs, share: 0.42 })
}

/** The pages of logs: the way in, one log, three repeats, a wrong guess, a log that is being read, saving. */
export const FRAME_LOG_STATES: readonly PageState[] = [
  { name: 'log', path: '/runs/log' },
  { name: 'log-empty', path: '/runs/log', uses: { frameLogs: async () => [] } },
  { name: 'log-none-chosen', path: '/runs/log', form: { something: 'else' }, status: 422 },
  { name: 'log-one', path: '/runs/log/1' },
  { name: 'log-repeats', path: '/runs/log/1,2' },
  { name: 'log-doubted', path: '/runs/log/3' },
  { name: 'log-marked', path: '/runs/log/1?column=1&as=time+stamp&unit=s&unshown=4%3D0' },
  {
    name: 'log-reading',
    path: '/runs/log/1',
    uses: { readFrameLogs: () => reading(cannedFrameLogUses(() => {})) },
  },
  { name: 'log-unknown', path: '/runs/log/77', status: 404 },
  { name: 'log-save', path: '/runs/log/1,2/save?column=2&as=frame+time&unit=ms&machine=T-0007' },
  {
    name: 'log-save-missing',
    path: '/runs/log/2/save?column=2&as=frame+time&unit=ms',
    form: { machine: 'T-0007', title: '', setting: '', roomC: 'warm' },
    status: 422,
  },
]
