import type { Run } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import { key, line, lines, number, oneOf, whole, yesNo } from '../input/cells.ts'
import {
  celsius,
  type FittedFields,
  fps,
  loadCelsius,
  loudness,
  lowFps,
  versionName,
} from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import type { SheetRow } from '../uses/runs/recordRuns.ts'
import type { LowKind } from '../uses/runs/runSheet.ts'
import { type Typed, textOf } from './form.tsx'
import type { FieldReader } from './typed.ts'

/** Rows a sheet may have: nobody measures more titles in one go. */
export const SHEET_ROWS_MAX = 24

const watts = number(1, 5000, 'W')

/** Fields of what was fitted, with the words of the form. */
export const FITTED_LABELS = {
  processorId: 'Processor',
  cardId: 'Graphics card',
  memoryType: 'Memory',
  totalGB: 'Memory in all',
  rateMts: 'Memory ran at',
  channels: 'Channels',
  linkGen: 'PCIe generation the card runs at',
  linkLanes: 'PCIe lanes the card runs at',
  largeBar: 'Large window (resizable BAR)',
  processorLimitW: 'Processor power as set',
  cardLimitW: 'Card power as set',
} as const satisfies Readonly<Record<keyof FittedFields, string>>

export const LOW_KINDS = ['low1Fps', 'low1MeanFps'] as const satisfies readonly LowKind[]

const LABELS: Readonly<Record<string, string>> = {
  ...FITTED_LABELS,
  machine: 'Machine',
  day: 'Day',
  at: 'Day',
  rows: 'Titles',
  driverVersion: 'Driver',
  roomC: 'Room',
  low: 'Which 1% low you type',
}
const ROW_LABELS: Readonly<Record<string, string>> = {
  title: 'Title',
  setting: 'Setting',
  titleVersion: 'Version',
  newVersion: 'A new version',
  averageFps: 'Average',
  lowFps: '1% low',
  low1Fps: '1% low',
  low1MeanFps: '1% low, mean',
  low01Fps: '0.1% low',
  low01MeanFps: '0.1% low, mean',
  scene: 'Scene',
  processorLoadC: 'Processor under load',
  cardLoadC: 'Card under load',
  noiseDba: 'Noise at one metre',
  note: 'Note',
}

/** The words of a field; those of a row carry its number behind a point. */
export const runLabel = (field: string): string | undefined => {
  const [name = '', row] = field.split('.')
  const ofRow = ROW_LABELS[name]
  return (
    LABELS[field] ?? (ofRow === undefined || row === undefined ? ofRow : `${ofRow}, title ${Number(row) + 1}`)
  )
}

/** What ran, as typed; a figure that is left out is absent. */
export function fittedFrom(reader: FieldReader): FittedFields {
  return {
    processorId: reader.read('processorId', key),
    cardId: reader.read('cardId', key),
    memoryType: reader.read('memoryType', oneOf(MEMORY_TYPES)),
    totalGB: reader.read('totalGB', number(0.25, 100_000, 'GB')),
    rateMts: reader.read('rateMts', number(200, 20_000, 'MT/s')),
    channels: reader.read('channels', whole(1, 16)),
    linkGen: reader.read('linkGen', whole(1, 9)),
    linkLanes: reader.read('linkLanes', whole(1, 32, 'lanes')),
    ...setFrom(reader),
  }
}

const setFrom = (reader: FieldReader): FittedFields => {
  const largeBar = reader.read('largeBar', yesNo)
  const processorLimitW = reader.read('processorLimitW', watts)
  const cardLimitW = reader.read('cardLimitW', watts)
  return {
    ...(largeBar !== undefined && { largeBar }),
    ...(processorLimitW !== undefined && { processorLimitW }),
    ...(cardLimitW !== undefined && { cardLimitW }),
  }
}

/** The number of rows a sheet was drawn with. */
export const sheetRows = (typed: Typed): number => {
  const rows = Number(textOf(typed, 'rows') ?? 0)
  return Number.isInteger(rows) ? Math.min(Math.max(rows, 0), SHEET_ROWS_MAX) : 0
}

const OPTIONAL = ['scene', 'processorLoadC', 'cardLoadC', 'noiseDba', 'note'] as const

/** Whether anything was typed into a row that is not there from the start. */
const isTyped = (typed: Typed, n: number): boolean =>
  ['averageFps', 'lowFps', 'newVersion'].some((name) => textOf(typed, `${name}.${n}`) !== undefined)

type Kind = { readonly low: LowKind | undefined; readonly withoutLows: boolean }

/** The rows into which something was typed. */
export function rowsFrom(reader: FieldReader, typed: Typed, kind: Kind): SheetRow[] {
  return Array.from({ length: sheetRows(typed) }, (_, n) => n).flatMap((n) => {
    if (!isTyped(typed, n)) return []
    const row = rowFrom(reader, n, kind)
    return row === undefined ? [] : [row]
  })
}

function rowFrom(reader: FieldReader, n: number, { low, withoutLows }: Kind): SheetRow | undefined {
  const field = (name: string) => `${name}.${n}`
  const titleId = reader.need(field('title'), key, 'Choose the title.')
  const settingId = reader.need(field('setting'), key, 'Choose the setting it ran at.')
  const newVersion = reader.read(field('newVersion'), versionName)
  const titleVersion =
    newVersion ??
    reader.need(
      field('titleVersion'),
      versionName,
      'Say which version ran: frame rates of two versions are not compared.',
    )
  const averageFps = reader.need(field('averageFps'), fps, 'Type the average.')
  const lowTyped = withoutLows ? undefined : reader.read(field('lowFps'), lowFps)
  const more = Object.fromEntries(
    OPTIONAL.map(
      (name) => [name, reader.read(field(name), CELLS[name] as typeof CELLS.note)] as const,
    ).filter(([, value]) => value !== undefined),
  ) as Partial<Pick<Run, (typeof OPTIONAL)[number]>>
  if (lowTyped !== undefined && low === undefined && !reader.problems.some(({ field: f }) => f === 'low'))
    reader.problems.push({ code: 'missing', field: 'low', next: WHICH_LOW })
  if (
    titleId === undefined ||
    settingId === undefined ||
    titleVersion === undefined ||
    averageFps === undefined
  )
    return undefined
  return {
    ...{ ref: String(n), titleId, settingId, titleVersion, averageFps, ...more },
    ...(newVersion !== undefined && { isNewVersion: true }),
    ...(lowTyped !== undefined && low !== undefined && { [low]: lowTyped }),
  }
}

const WHICH_LOW = 'Two figures go by that name. Say which one your tool gives; it is remembered.'

const CELLS = {
  scene: line(120),
  processorLoadC: loadCelsius,
  cardLoadC: loadCelsius,
  noiseDba: loudness,
  note: lines(),
} as const

/** Problems as the sheet's fields are called: both kinds of low are typed into one. */
export const atSheetFields = (problems: readonly Problem[]): Problem[] =>
  problems.map((problem) => ({
    ...problem,
    field: problem.field.replace(/^low1(?:Mean)?Fps\./, 'lowFps.').replace(/^at$/, 'day'),
  }))

/** Problems that go away when the lows are left out. */
export const isOfLows = ({ field }: Problem): boolean => field.startsWith('lowFps.') || field === 'low'

/** One run as its own form gives it: every figure in a field of its own name. */
export function editFrom(reader: FieldReader) {
  const figures = {
    low1Fps: reader.read('low1Fps', lowFps),
    low1MeanFps: reader.read('low1MeanFps', lowFps),
    low01Fps: reader.read('low01Fps', lowFps),
    low01MeanFps: reader.read('low01MeanFps', lowFps),
    driverVersion: reader.read('driverVersion', line(60)),
    scene: reader.read('scene', line(120)),
    roomC: reader.read('roomC', celsius),
    processorLoadC: reader.read('processorLoadC', loadCelsius),
    cardLoadC: reader.read('cardLoadC', loadCelsius),
    noiseDba: reader.read('noiseDba', loudness),
    note: reader.read('note', lines()),
  }
  const titleId = reader.need('title', key, 'Choose the title.')
  const settingId = reader.need('setting', key, 'Choose the setting it ran at.')
  const titleVersion = reader.need('titleVersion', versionName, 'Say which version ran.')
  const averageFps = reader.need('averageFps', fps, 'Type the average.')
  const fitted = fittedFrom(reader)
  if (
    titleId === undefined ||
    settingId === undefined ||
    titleVersion === undefined ||
    averageFps === undefined
  )
    return undefined
  return { titleId, settingId, titleVersion, averageFps, ...figures, fitted }
}
