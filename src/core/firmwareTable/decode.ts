import { HOUSINGS, LANES, MODULE_SHAPES, MODULE_TYPES, SOCKETS, slotType, USAGES } from './codes.ts'
import {
  byteAt,
  longAt,
  numberAt,
  type Structure,
  splitTable,
  type TableFault,
  textAt,
} from './structures.ts'
import type { FirmwareTable, TableArray, TableModule, TableProcessor, TableSlot } from './table.ts'
import { MOST_OF_A_KIND } from './table.ts'
import { told } from './told.ts'

/** Structure types we read (DSP0134, section 7). Type 11 (free texts of the maker) is not among them. */
const TYPES = {
  ...{
    firmware: 0,
    system: 1,
    board: 2,
    housing: 3,
    processor: 4,
    slot: 9,
    array: 16,
    module: 17,
    trust: 43,
  },
} as const
const WANTED: ReadonlySet<number> = new Set(Object.values(TYPES))

export type Decoded =
  | { readonly ok: true; readonly table: FirmwareTable }
  | { readonly ok: false; readonly fault: TableFault }

/** What a file header says about the table behind it. */
export type Outside = {
  readonly version?: string | undefined
  /** Number of structures by a 32-bit entry point. */
  readonly count?: number | undefined
  /** The header gives the exact length, and so much is there: the table may do without its end mark. */
  readonly exact?: boolean | undefined
}

/**
 * Reads a table. Total: any bytes give a table or one fault, in time linear in their number. A field is read only where
 * its structure is long enough to have it. Source: DMTF DSP0134 (SMBIOS 3.7 and earlier), 7.1 to 7.5, 7.10, 7.17, 7.18,
 * 7.44.
 */
export function decodeTable(bytes: Uint8Array, { version, count, exact }: Outside = {}): Decoded {
  const split = splitTable(bytes, WANTED, { count, exact })
  if (!split.ok) return split
  const of = (type: number) => split.structures.filter((s) => s.type === type)
  const ofKind = [TYPES.processor, TYPES.slot, TYPES.array, TYPES.module].map((type) => of(type))
  const most = ofKind.find((list) => list.length > MOST_OF_A_KIND)?.[0]
  if (most !== undefined) return { ok: false, fault: { why: 'too many', at: 0, type: most.type } }
  const [processors = [], slots = [], arrays = [], modules = []] = ofKind
  const missing = { texts: 0 }
  const text = (structure: Structure | undefined, at: number): string | undefined => {
    if (structure === undefined) return undefined
    const field = textAt(structure, at)
    if (field.missing) missing.texts++
    return isPrivate(structure, field.text) ? undefined : field.text
  }
  const [firmware] = of(TYPES.firmware)
  const [system] = of(TYPES.system)
  const boards = of(TYPES.board)
  const board = boards.find((b) => byteAt(b, 0x0d) === MOTHERBOARD) ?? boards[0]
  const notMemory = new Set(arrays.filter((a) => !isSystemMemory(a)).map(({ handle }) => handle))
  const table: FirmwareTable = {
    version,
    firmware: {
      maker: text(firmware, 0x04),
      version: text(firmware, 0x05),
      date: isoDay(text(firmware, 0x08)),
    },
    system: { maker: text(system, 0x04), product: text(system, 0x05) },
    board: { maker: text(board, 0x04), product: text(board, 0x05), version: text(board, 0x06) },
    housing: HOUSINGS[(byteOf(of(TYPES.housing)[0], 0x05) ?? 0) & 0x7f],
    trustModule: trustModuleOf(of(TYPES.trust)[0]),
    processors: processors.map((s) => processorOf(s, text)),
    arrays: arrays.filter(isSystemMemory).map(arrayOf),
    modules: modules.filter((m) => !notMemory.has(numberAt(m, 0x04, 2) ?? -1)).map((s) => moduleOf(s, text)),
    slots: slots.map((s) => slotOf(s, text)),
    missingTexts: 0,
  }
  if (saysNothing(table)) return { ok: false, fault: { why: 'says nothing', at: 0 } }
  return { ok: true, table: { ...table, missingTexts: missing.texts } }
}

/** Where serial number and asset tag stand: 7.2, 7.3, 7.5, 7.18. They are looked at for this comparison alone. */
const PRIVATE_AT: Readonly<Record<number, readonly number[]>> = {
  [TYPES.system]: [0x07],
  [TYPES.board]: [0x07, 0x08],
  [TYPES.processor]: [0x20, 0x21],
  [TYPES.module]: [0x18, 0x19],
}

/** A serial number or asset tag that firmware wrote into another field too; what nobody filled in is the same in many. */
const isPrivate = (structure: Structure, text: string | undefined): boolean =>
  told(text) !== undefined &&
  (PRIVATE_AT[structure.type] ?? []).some((at) => textAt(structure, at).text === text)

type ReadText = (structure: Structure, at: number) => string | undefined

const MOTHERBOARD = 0x0a
const SYSTEM_MEMORY = 0x03

const byteOf = (structure: Structure | undefined, at: number): number | undefined =>
  structure === undefined ? undefined : byteAt(structure, at)

const isSystemMemory = (array: Structure): boolean => byteAt(array, 0x05) === SYSTEM_MEMORY

const saysNothing = ({ firmware, board, system, processors, modules }: FirmwareTable): boolean =>
  processors.length + modules.length === 0 &&
  [firmware.version, board.product, system.product].every((text) => text === undefined)

/** 7.1: mm/dd/yyyy, in old tables mm/dd/yy. Anything else stays as written. */
function isoDay(written: string | undefined): string | undefined {
  const [, month = '', day = '', year = ''] = /^(\d\d)\/(\d\d)\/(\d{4}|\d\d)$/.exec(written ?? '') ?? []
  const isDay = Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= 31
  return isDay ? `${year.length === 2 ? '19' : ''}${year}-${month}-${day}` : written
}

/** 7.44: major and minor version of the specification that the module follows. */
function trustModuleOf(structure: Structure | undefined): '2.0' | '1.2' | undefined {
  const version = `${byteOf(structure, 0x08)}.${byteOf(structure, 0x09)}`
  return version === '2.0' || version === '1.2' ? version : undefined
}

/** 7.5. A count of 0xFF stands in the word behind; 0 is not told. */
function processorOf(s: Structure, text: ReadText): TableProcessor {
  const counted = (at: number, wide: number): number | undefined => {
    const byte = byteAt(s, at)
    return (byte === 0xff ? (numberAt(s, wide, 2) ?? byte) : byte) || undefined
  }
  return {
    place: text(s, 0x04),
    maker: text(s, 0x07),
    name: text(s, 0x10),
    fitted: ((byteAt(s, 0x18) ?? 0) & 0x40) !== 0,
    socket: SOCKETS[byteAt(s, 0x19) ?? 0],
    cores: counted(0x23, 0x2a),
    threads: counted(0x25, 0x2e),
  }
}

const KIB_PER_MIB = 1024
const BYTES_PER_MIB = 1024 * 1024
const IN_THE_LONG_FIELD = 0x80000000

/** 7.17. */
function arrayOf(s: Structure): TableArray {
  const short = numberAt(s, 0x07, 4)
  const long = longAt(s, 0x0f)
  const maxMiB =
    short === IN_THE_LONG_FIELD
      ? long === undefined
        ? undefined
        : long / BYTES_PER_MIB
      : (short ?? 0) / KIB_PER_MIB
  return { maxMiB: maxMiB || undefined, places: numberAt(s, 0x0d, 2) || undefined }
}

/** 7.18.4: 0 nothing fitted, 0xFFFF not told, 0x7FFF MiB in the long field, bit 15 KiB instead of MiB. */
function sizeOf(s: Structure): Pick<TableModule, 'holds' | 'sizeMiB'> {
  const short = numberAt(s, 0x0c, 2)
  if (short === undefined || short === 0xffff) return { holds: 'not told' }
  if (short === 0) return { holds: 'nothing' }
  if (short === 0x7fff) {
    const sizeMiB = (numberAt(s, 0x1c, 4) ?? 0) & 0x7fffffff
    return sizeMiB === 0 ? { holds: 'not told' } : { holds: 'module', sizeMiB }
  }
  const size = short & 0x7fff
  if (size === 0) return { holds: 'not told' }
  return { holds: 'module', sizeMiB: short & 0x8000 ? size / KIB_PER_MIB : size }
}

/** 7.18. A rate of 0xFFFF stands in the long field; 0 is not told. */
function moduleOf(s: Structure, text: ReadText): TableModule {
  const rate = (at: number, long: number): number | undefined => {
    const word = numberAt(s, at, 2)
    return (word === 0xffff ? (numberAt(s, long, 4) ?? 0) & 0x7fffffff : word) || undefined
  }
  return {
    place: text(s, 0x10),
    bank: text(s, 0x11),
    ...sizeOf(s),
    type: MODULE_TYPES[byteAt(s, 0x12) ?? 0],
    shape: MODULE_SHAPES[byteAt(s, 0x0e) ?? 0],
    ratedMts: rate(0x15, 0x54),
    runsMts: rate(0x20, 0x58),
    maker: text(s, 0x17),
    partNumber: text(s, 0x1a),
    ranks: (byteAt(s, 0x1b) ?? 0) & 0x0f || undefined,
  }
}

/** 7.10. */
function slotOf(s: Structure, text: ReadText): TableSlot {
  const usage = byteAt(s, 0x07)
  return {
    name: text(s, 0x04),
    ...slotType(byteAt(s, 0x05)),
    lanes: LANES[byteAt(s, 0x06) ?? 0],
    usage: usage === 3 || usage === 4 || usage === 5 ? USAGES[usage] : undefined,
  }
}
