import type { Run, Setting, Title, TitleVersion } from '../../core/gain/run.ts'
import { inOrder } from '../../core/gain/run.ts'
import type { OwnerReport } from '../../core/job/job.ts'
import { MEMORY_TYPES, type MemoryType } from '../../core/part.ts'
import {
  type Cell,
  date,
  key,
  line,
  lines,
  list,
  number,
  oneOf,
  pathKey,
  whole,
  writeCell,
  yesNo,
} from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { Refusal } from '../refusal.ts'

/** What a shop calls a frame rate; outside of it a comma slipped. */
export const fps = number(1, 2000, 'FPS')
/** The slow moments may be slower than any average: a frame that stands for ten seconds is 0.1 FPS. */
export const lowFps = number(0.1, 2000, 'FPS')
/** A name of a version, as its title shows it. */
export const versionName: Cell<string> = {
  allowed: 'a version of at most 60 characters, without ";" and "="',
  read: (text, reading) =>
    /[;=]/.test(text)
      ? new Refusal('not allowed', 'Write a version without ";" and "=".')
      : line(60).read(text, reading),
}

const VERSIONS_ALLOWED = 'versions with the day each came out, such as 2.0=2025-03-01; 2.1=2025-11-10'

const version: Cell<TitleVersion> = {
  allowed: 'a version with the day it came out, such as 2.1=2025-11-10',
  read: (text, reading) => {
    const [, name, day] = /^([^=]+?)\s*=\s*(\S+)$/.exec(text) ?? []
    if (name === undefined || day === undefined)
      return new Refusal('not allowed', 'Write a version with the day it came out, such as 2.1=2025-11-10.')
    const read = versionName.read(name, reading)
    if (read instanceof Refusal) return read
    const at = date.read(day, reading)
    return at instanceof Refusal ? at : { version: read, at }
  },
  write: ({ version: name, at }, reading) => `${name}=${writeCell(date, at, reading)}`,
}

/** Versions of a title, each once, the oldest first. */
const versions: Cell<readonly TitleVersion[]> = {
  allowed: VERSIONS_ALLOWED,
  read: (text, reading) => {
    const read = list(version).read(text, reading)
    if (read instanceof Refusal) return read
    const twice = read.find(({ version: name }, i) => read.findIndex((v) => v.version === name) < i)
    if (twice === undefined) return inOrder(read)
    return new Refusal('duplicate', `The version ${twice.version} is named twice. Keep one of the two.`)
  },
  write: (value, reading) => writeCell(list(version), [...value], reading),
}

const gigabytes = number(0.25, 100_000, 'GB')
const watts = number(1, 5000, 'W')

export const titleTable = table<Title>()({
  name: 'titles',
  key: ['title'],
  columns: {
    title: need('id', pathKey),
    name: need('name', line()),
    versions: may('versions', versions),
    memory_gb: may('memoryGB', gigabytes),
    graphics_memory_gb: may('graphicsMemoryGB', gigabytes),
    cap_fps: may('capFps', fps),
  },
})

/** A setting in one row. */
export type SettingFields = Omit<Setting, 'lowered'> & {
  readonly loweredFromId?: string | undefined
  readonly loweredWhat?: string | undefined
}

export const settingTable = table<SettingFields>()({
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
    lowered_from: may('loweredFromId', key),
    lowered_what: may('loweredWhat', line(60)),
  },
})

/** What was fitted, in one row; what is not known is absent. */
export type FittedFields = {
  readonly processorId?: string | undefined
  readonly cardId?: string | undefined
  readonly memoryType?: MemoryType | undefined
  readonly totalGB?: number | undefined
  readonly rateMts?: number | undefined
  readonly channels?: number | undefined
  readonly linkGen?: number | undefined
  readonly linkLanes?: number | undefined
  readonly largeBar?: boolean | undefined
  readonly processorLimitW?: number | undefined
  readonly cardLimitW?: number | undefined
}

/** A run whose fitted parts may still have to be filled in from the machine it was made on. */
export type RunFields = Omit<Run, 'fitted'> & FittedFields

export const celsius = number(0, 60, '°C')
/** Of a part under load. */
export const loadCelsius = number(0, 130, '°C')
export const loudness = number(0, 120, 'dB(A)')

export const runTable = table<RunFields>()({
  name: 'runs',
  key: ['run'],
  columns: {
    run: need('id', pathKey),
    run_on: need('at', date),
    machine: may('machineTag', key),
    processor: may('processorId', key),
    card: may('cardId', key),
    memory_type: may('memoryType', oneOf(MEMORY_TYPES)),
    memory_gb: may('totalGB', gigabytes),
    memory_mts: may('rateMts', number(200, 20_000, 'MT/s')),
    channels: may('channels', whole(1, 16)),
    link_gen: may('linkGen', whole(1, 9)),
    link_lanes: may('linkLanes', whole(1, 32, 'lanes')),
    large_bar: may('largeBar', yesNo),
    processor_limit_w: may('processorLimitW', watts),
    card_limit_w: may('cardLimitW', watts),
    title: need('titleId', key),
    title_version: need('titleVersion', versionName),
    setting: need('settingId', key),
    average_fps: need('averageFps', fps),
    low_1pct_fps: may('low1Fps', lowFps),
    low_1pct_mean_fps: may('low1MeanFps', lowFps),
    low_0_1pct_fps: may('low01Fps', lowFps),
    low_0_1pct_mean_fps: may('low01MeanFps', lowFps),
    driver: may('driverVersion', line(60)),
    scene: may('scene', line(120)),
    room_c: may('roomC', celsius),
    processor_load_c: may('processorLoadC', loadCelsius),
    card_load_c: may('cardLoadC', loadCelsius),
    noise_dba: may('noiseDba', loudness),
    log: may('logId', key),
    note: may('note', lines()),
  },
})

/** What an owner says a title ran at: kept apart from the runs and never among them. */
export type OwnerReportFields = Omit<OwnerReport, 'jobId' | 'customerId'>

export const ownerReportTable = table<OwnerReportFields>()({
  name: 'owner_reports',
  key: ['machine', 'title', 'setting', 'reported_on'],
  columns: {
    machine: need('machineTag', key),
    title: need('titleId', key),
    setting: need('settingId', key),
    reported_on: need('at', date),
    average_fps: need('averageFps', fps),
    low_1pct_fps: may('low1Fps', lowFps),
    note: may('note', lines()),
  },
})
