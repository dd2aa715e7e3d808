import type { Setting, Title } from '../../core/gain/run.ts'
import { MEMORY_TYPES, type MemoryType, PART_KINDS, type PartKind } from '../../core/part.ts'
import {
  ASKS,
  type Ask,
  CHANNELS,
  type Channel,
  COMPLAINTS,
  type Complaint,
  type Wanted,
  WISHES,
  type Wish,
} from '../../core/question.ts'
import {
  type Cell,
  date,
  key,
  line,
  lines,
  list,
  money,
  number,
  oneOf,
  type Pixels,
  pathKey,
  pixels,
  whole,
  yesNo,
} from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { plainNumber } from '../numbers.ts'
import { Refusal } from '../refusal.ts'

export const titleTable = table<Title>()({
  name: 'titles',
  key: ['title'],
  columns: { title: need('id', key), name: need('name', line()) },
})

export const fps = number(1, 2000, 'FPS')

export const settingTable = table<Setting>()({
  name: 'settings',
  key: ['setting'],
  columns: {
    setting: need('id', key),
    width_px: need('widthPx', whole(320, 16_000, 'pixels')),
    height_px: need('heightPx', whole(200, 16_000, 'pixels')),
    preset: need('preset', line(60)),
    ray_tracing: may('rayTracing', yesNo, false),
    upscaler: may('upscaler', line(60)),
    frame_generation: may('frameGeneration', yesNo, false),
    cap_fps: may('capFps', fps),
  },
})

/** A run whose fitted parts may still have to be filled in from the machine it was made on. */
export type RunFields = {
  readonly id: string
  readonly at: string
  readonly machineTag?: string | undefined
  readonly processorId?: string | undefined
  readonly cardId?: string | undefined
  readonly memoryType?: MemoryType | undefined
  readonly totalGB?: number | undefined
  readonly rateMts?: number | undefined
  readonly channels?: number | undefined
  readonly linkGen?: number | undefined
  readonly linkLanes?: number | undefined
  readonly titleId: string
  readonly titleVersion: string
  readonly settingId: string
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  readonly note?: string | undefined
}

export const runTable = table<RunFields>()({
  name: 'runs',
  key: ['run'],
  columns: {
    run: need('id', key),
    run_on: need('at', date),
    machine: may('machineTag', key),
    processor: may('processorId', key),
    card: may('cardId', key),
    memory_type: may('memoryType', oneOf(MEMORY_TYPES)),
    memory_gb: may('totalGB', number(0.25, 100_000, 'GB')),
    memory_mts: may('rateMts', number(200, 20_000, 'MT/s')),
    channels: may('channels', whole(1, 16)),
    link_gen: may('linkGen', whole(1, 9)),
    link_lanes: may('linkLanes', whole(1, 32, 'lanes')),
    title: need('titleId', key),
    title_version: need('titleVersion', line(60)),
    setting: need('settingId', key),
    average_fps: need('averageFps', number(0.1, 10_000, 'FPS')),
    low_1pct_fps: may('low1Fps', number(0.1, 10_000, 'FPS')),
    note: may('note', lines()),
  },
})

const WANTED_ALLOWED = 'title@setting, with x2 behind it for double weight, such as harbor@1080-high x2'

const wanted: Cell<Wanted> = {
  allowed: WANTED_ALLOWED,
  read: (text, reading) => {
    const [, titleId, settingId, weight] = /^([^@\s]+)\s*@\s*([^@\s]+)(?:\s+x\s*(\S+))?$/.exec(text) ?? []
    if (titleId === undefined || settingId === undefined)
      return new Refusal('not allowed', `Write ${WANTED_ALLOWED}.`)
    if (weight === undefined) return { titleId, settingId, weight: 1 }
    const read = number(0.01, 100).read(weight, { ...reading, decimalMark: 'either' })
    return read instanceof Refusal ? read : { titleId, settingId, weight: read }
  },
  write: ({ titleId, settingId, weight }) =>
    `${titleId}@${settingId}${weight === 1 ? '' : ` x${plainNumber(weight)}`}`,
}

export type QuestionFields = {
  readonly id: string
  readonly machineTag: string
  readonly askedAt: string
  readonly words: string
  /** None for a kind of question that is about no title. */
  readonly wanted?: readonly Wanted[] | undefined
  readonly targetFps?: number | undefined
  readonly budgetMinor?: number | undefined
  readonly display?: Pixels | undefined
  readonly refreshHz?: number | undefined
  readonly wishes?: readonly Wish[] | undefined
  readonly asks?: Ask | undefined
  readonly cameBy?: Channel | undefined
  readonly complaint?: Complaint | undefined
  readonly partKind?: PartKind | undefined
  readonly partWords?: string | undefined
  readonly partPriceMinor?: number | undefined
  readonly plannedSize?: Pixels | undefined
  readonly plannedHz?: number | undefined
}

export const questionTable = table<QuestionFields>()({
  name: 'questions',
  key: ['question'],
  columns: {
    question: need('id', pathKey),
    machine: need('machineTag', key),
    asked_on: need('askedAt', date),
    words: need('words', lines()),
    titles: may('wanted', list(wanted), []),
    target_fps: may('targetFps', fps),
    budget: may('budgetMinor', money),
    display_px: may('display', pixels),
    display_hz: may('refreshHz', number(20, 2000, 'Hz')),
    wishes: may('wishes', list(oneOf(WISHES))),
    asks: may('asks', oneOf(ASKS)),
    came_by: may('cameBy', oneOf(CHANNELS)),
    complaint: may('complaint', oneOf(COMPLAINTS)),
    part_kind: may('partKind', oneOf(PART_KINDS)),
    part_words: may('partWords', line()),
    part_price: may('partPriceMinor', money),
    planned_px: may('plannedSize', pixels),
    planned_hz: may('plannedHz', number(20, 2000, 'Hz')),
  },
})
