import { chipsetNamed } from '../facts/chipsets.ts'
import { LIMIT_CATALOGUE } from '../limits/catalogue.ts'
import { CHANNELS } from '../limits/known.ts'
import type { LimitKey, Limits, LimitValues, Resolved } from '../limits/limit.ts'
import { type Module, modulesIn } from './memory.ts'
import type { FirmwareTable, TableSlot } from './table.ts'
import { told } from './told.ts'

/** Limits that a firmware table speaks of. */
export const READ_KEYS = [
  'firmware',
  'memoryType',
  'memoryRunsMts',
  'modulesInBothChannels',
  'slotLanes',
  'trustModule',
  'socket',
  'memorySlots',
  'memoryMaxGB',
  'slotPcieGen',
] as const satisfies readonly LimitKey[]
export type ReadKey = (typeof READ_KEYS)[number]

/** Why a figure is to be taken with care, with the figures that say so. */
export type Remark =
  | { readonly what: 'clock doubled'; readonly clockMhz: number }
  | { readonly what: 'more places than channels drive'; readonly chipset: string; readonly most: number }
  | { readonly what: 'more is fitted'; readonly fittedGB: number }
  | { readonly what: 'boards are wrong here' }

/**
 * One limit as the table gives it. `counted` is the catalogue's word: for maxima, counts of slots, sockets and slot
 * generations a reading is a hint, shown and never believed.
 */
export type LimitRow = {
  readonly [K in ReadKey]: {
    /** Key of the row in a form, such as `limit.firmware`. */
    readonly id: `limit.${K}`
    readonly key: K
    readonly value: LimitValues[K]
    readonly counted: boolean
    readonly standing: 'agrees' | 'new' | 'differs'
    readonly today: Resolved<K>
    readonly remarks: readonly Remark[]
  }
}[ReadKey]

type SaidOf<K extends ReadKey> = {
  readonly value: LimitValues[K] | undefined
  readonly remarks?: readonly Remark[]
}
type Said = { readonly [K in ReadKey]: SaidOf<K> }

/** What the table says of limits, against what is believed today. Fields that were not filled in give no row. */
export function limitRows(table: FirmwareTable, limits: Limits): LimitRow[] {
  const modules = modulesIn(table)
  const said: Said = {
    firmware: { value: told(table.firmware.version) },
    memoryType: { value: onlyValue(modules.map((m) => m.memoryType)) },
    memoryRunsMts: runsAt(modules),
    modulesInBothChannels: { value: inBothChannels(modules) },
    slotLanes: { value: lanesOf(graphicsSlot(table.slots)) },
    trustModule: { value: table.trustModule },
    socket: { value: table.processors.find((p) => p.socket !== undefined)?.socket },
    memorySlots: placesOf(table, limits),
    memoryMaxGB: maximumOf(table, modules),
    slotPcieGen: { value: graphicsSlot(table.slots)?.pcieGen },
  }
  return READ_KEYS.flatMap((key) => rowOf(key, said, limits))
}

function rowOf<K extends ReadKey>(key: K, said: Said, limits: Limits): LimitRow[] {
  const { value, remarks = [] } = said[key]
  if (value === undefined) return []
  const today = limits[key] as Resolved<K>
  const counted = LIMIT_CATALOGUE[key].belief.includes('read')
  const standing = !today.known ? 'new' : agree(today.value, value) ? 'agrees' : 'differs'
  const wrongOften: readonly Remark[] = counted ? [] : [{ what: 'boards are wrong here' }]
  const made = {
    id: `limit.${key}`,
    key,
    value,
    counted,
    standing,
    today,
    remarks: [...remarks, ...wrongOften],
  }
  // Key and value belong together, which the compiler does not follow through a generic key.
  return [made as unknown as LimitRow]
}

/** A table has no word for DDR3L. */
const agree = (today: unknown, read: unknown): boolean =>
  today === read || (today === 'DDR3L' && read === 'DDR3')

/** The value that all have; undefined when one has another, or none. */
function onlyValue<V>(values: readonly (V | undefined)[]): V | undefined {
  const [first, ...others] = values
  return others.every((other) => other === first) ? first : undefined
}

/** All modules run at the slowest one's rate. */
function runsAt(modules: readonly Module[]): Said['memoryRunsMts'] {
  const runs = modules.flatMap((m) => m.runs ?? [])
  if (runs.length === 0 || runs.length < modules.length) return { value: undefined }
  const slowest = runs.reduce((least, rate) => (rate.mts < least.mts ? rate : least))
  const { mts, clockMhz } = slowest
  return { value: mts, remarks: clockMhz === undefined ? [] : [{ what: 'clock doubled', clockMhz }] }
}

/** Told only where every module's channel is, and none is beyond the two of a desktop board. */
function inBothChannels(modules: readonly Module[]): 'yes' | 'no' | undefined {
  const channels = new Set(modules.map((m) => m.channel))
  const areTwo = [...channels].every((channel) => channel === 'A' || channel === 'B')
  return modules.length < CHANNELS || !areTwo ? undefined : channels.size === CHANNELS ? 'yes' : 'no'
}

const LANES_OF_CARDS: ReadonlySet<number> = new Set([4, 8, 16])
const PLAIN_PCIE = /^PCI Express(?: \d)?(?: x\d+)?$/

/**
 * The slot for a card: the first of those with most wired lanes that is as long as a card needs, or does not say how
 * long it is. In the open dataset the width is good evidence; length, generation and use are not.
 */
export function graphicsSlot(slots: readonly TableSlot[]): TableSlot | undefined {
  const long = slots.filter(
    ({ type = '', lengthLanes = 16, lanes = 0 }) =>
      PLAIN_PCIE.test(type) && lengthLanes === 16 && (lanes >= 8 || type.endsWith('x16')),
  )
  return long.reduce<TableSlot | undefined>(
    (best, slot) => (best === undefined || (slot.lanes ?? 0) > (best.lanes ?? 0) ? slot : best),
    undefined,
  )
}

const lanesOf = (slot: TableSlot | undefined): number | undefined =>
  slot?.lanes !== undefined && LANES_OF_CARDS.has(slot.lanes) ? slot.lanes : undefined

/** Places for memory; boards of chipsets that drive one module a channel announce four all the same (linuxhw/DMI). */
function placesOf({ arrays, modules }: FirmwareTable, limits: Limits): Said['memorySlots'] {
  const announced = arrays.reduce((sum, { places = 0 }) => sum + places, 0)
  const value = announced || modules.length || undefined
  const row = limits.chipset.known ? chipsetNamed(limits.chipset.value) : undefined
  const most = row === undefined ? undefined : row.dimmsPerChannel * CHANNELS
  const tooMany = row !== undefined && most !== undefined && value !== undefined && value > most
  return {
    value,
    remarks: tooMany ? [{ what: 'more places than channels drive', chipset: row.chipset, most }] : [],
  }
}

function maximumOf({ arrays }: FirmwareTable, modules: readonly Module[]): Said['memoryMaxGB'] {
  const maxGB = arrays.reduce((sum, { maxMiB = 0 }) => sum + maxMiB, 0) / 1024
  const fittedGB = modules.reduce((sum, { moduleGB }) => sum + moduleGB, 0)
  return {
    value: maxGB > 0 ? maxGB : undefined,
    remarks: fittedGB > maxGB ? [{ what: 'more is fitted', fittedGB }] : [],
  }
}
