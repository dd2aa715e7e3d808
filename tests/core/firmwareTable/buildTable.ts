import {
  HOUSINGS,
  LANES,
  MODULE_SHAPES,
  MODULE_TYPES,
  SOCKETS,
  slotType,
  USAGES,
} from '../../../src/core/firmwareTable/codes.ts'
import type { FirmwareTable } from '../../../src/core/firmwareTable/table.ts'

/**
 * Writes tables as DSP0134 lays them out (6.1, 7.1 to 7.5, 7.10, 7.17, 7.18, 7.44, 7.46), the other way round than the
 * program reads them. Every serial number, asset tag and free text is `SECRETS`, so that a test can look for them.
 */
export const SECRETS = ['SN-4471', 'TAG-0815', 'FREE-TEXT-99'] as const
export const SECRET_UUID = Uint8Array.from({ length: 16 }, (_, i) => 0xa0 + i)

type Field = readonly [at: number, bytes: 1 | 2 | 4 | 8 | 'uuid', value: number | string | undefined]

let handle = 0

/** One structure: its fields by offset, texts numbered as they come, and what ends it. */
export function structure(
  type: number,
  length: number,
  fields: readonly Field[],
  own = handle++,
): Uint8Array {
  const formatted = new Uint8Array(length)
  const view = new DataView(formatted.buffer)
  view.setUint8(0, type)
  view.setUint8(1, length)
  view.setUint16(2, own, true)
  const texts: string[] = []
  for (const [at, bytes, value] of fields) {
    if (value === undefined) continue
    if (typeof value === 'string') view.setUint8(at, texts.push(value))
    else if (bytes === 'uuid') formatted.set(SECRET_UUID, at)
    else if (bytes === 1) view.setUint8(at, value)
    else if (bytes === 2) view.setUint16(at, value, true)
    else if (bytes === 4) view.setUint32(at, value, true)
    else view.setBigUint64(at, BigInt(value), true)
  }
  const ascii = new TextEncoder().encode(texts.map((text) => `${text}\0`).join(''))
  const end = texts.length === 0 ? 2 : 1
  return Uint8Array.from([...formatted, ...ascii, ...new Uint8Array(end)])
}

const codeOf = (codes: Readonly<Record<number, unknown>>, value: unknown, none: number): number =>
  value === undefined ? none : Number(Object.entries(codes).find(([, name]) => name === value)?.[0])

const slotCode = (wanted: FirmwareTable['slots'][number]): number => {
  if (wanted.type === undefined) return 2
  for (let code = 3; code < 256; code++) if (slotType(code)?.type === wanted.type) return code
  throw new RangeError(`no code for ${wanted.type}`)
}

const MOST_IN_SHORT_FIELD_MIB = 0x7ffe
const MIB = 1024 * 1024
const [serial, tag, free] = SECRETS

/** The table's structures, the end mark among them. */
export function structuresFor(table: FirmwareTable): Uint8Array[] {
  handle = 0
  const { firmware, system, board, housing, trustModule, processors, arrays, modules, slots } = table
  const written = firmware.date?.replace(/^(\d{4})-(\d\d)-(\d\d)$/, '$2/$3/$1')
  const first = [
    structure(0, 0x1a, [
      [0x04, 1, firmware.maker],
      [0x05, 1, firmware.version],
      [0x08, 1, written],
    ]),
    structure(1, 0x1b, [
      [0x04, 1, system.maker],
      [0x05, 1, system.product],
      [0x07, 1, serial],
      [0x08, 'uuid', 0],
    ]),
    // Daughter boards stand in the table too, and not always behind.
    structure(2, 0x0f, [
      [0x04, 1, 'Riser'],
      [0x05, 1, 'Riser'],
      [0x0d, 1, 0x09],
    ]),
    structure(2, 0x0f, [
      ...([
        [0x04, 1, board.maker],
        [0x05, 1, board.product],
        [0x06, 1, board.version],
      ] as const),
      ...([
        [0x07, 1, serial],
        [0x08, 1, tag],
        [0x0d, 1, 0x0a],
      ] as const),
    ]),
    structure(3, 0x16, [
      [0x05, 1, 0x80 | codeOf(HOUSINGS, housing, 2)],
      [0x07, 1, serial],
      [0x08, 1, tag],
    ]),
    structure(11, 0x05, [[0x04, 1, free]]),
  ]
  const trust = trustModule === undefined ? [] : [trustModule.split('.').map(Number)]
  const arrayHandles: number[] = []
  return [
    ...first,
    ...trust.map(([major = 0, minor = 0]) =>
      structure(43, 0x1f, [
        [0x08, 1, major],
        [0x09, 1, minor],
      ]),
    ),
    ...processors.map((p) =>
      structure(4, 0x30, [
        ...([
          [0x04, 1, p.place],
          [0x05, 1, 3],
          [0x07, 1, p.maker],
          [0x10, 1, p.name],
        ] as const),
        ...([
          [0x18, 1, p.fitted ? 0x41 : 0],
          [0x19, 1, codeOf(SOCKETS, p.socket, 1)],
        ] as const),
        ...([
          [0x20, 1, serial],
          [0x21, 1, tag],
        ] as const),
        ...([
          [0x23, 1, Math.min(p.cores ?? 0, 0xff)],
          [0x25, 1, Math.min(p.threads ?? 0, 0xff)],
        ] as const),
        ...([
          [0x2a, 2, p.cores ?? 0],
          [0x2e, 2, p.threads ?? 0],
        ] as const),
      ]),
    ),
    // Firmware chips are listed as memory too (use 5), with a device of their own.
    structure(
      16,
      0x17,
      [
        [0x04, 1, 3],
        [0x05, 1, 5],
        [0x07, 4, 16 * 1024],
        [0x0d, 2, 1],
      ],
      0x9000,
    ),
    structure(17, 0x5c, [
      [0x04, 2, 0x9000],
      [0x0c, 2, 16],
      [0x12, 1, 9],
      [0x10, 1, 'ROM'],
    ]),
    ...arrays.map(({ maxMiB = 0, places = 0 }) => {
      const kib = maxMiB * 1024
      const isLong = kib >= 0x80000000
      arrayHandles.push(handle)
      return structure(16, 0x17, [
        ...([
          [0x04, 1, 3],
          [0x05, 1, 3],
          [0x06, 1, 3],
          [0x07, 4, isLong ? 0x80000000 : kib],
        ] as const),
        ...([
          [0x0d, 2, places],
          [0x0f, 8, isLong ? maxMiB * MIB : 0],
        ] as const),
      ])
    }),
    ...modules.map((m) => {
      const { sizeMiB = 0, ratedMts = 0, runsMts = 0 } = m
      const isLong = sizeMiB > MOST_IN_SHORT_FIELD_MIB
      const inKib = !Number.isInteger(sizeMiB)
      const short = inKib ? 0x8000 | (sizeMiB * 1024) : isLong ? 0x7fff : sizeMiB
      const size = m.holds === 'nothing' ? 0 : m.holds === 'not told' ? 0xffff : short
      const [rated, runs] = [ratedMts, runsMts].map((mts) => Math.min(mts, 0xffff))
      return structure(17, 0x5c, [
        ...([
          [0x04, 2, arrayHandles[0] ?? 0xfffe],
          [0x08, 2, 64],
          [0x0a, 2, 64],
          [0x0c, 2, size],
        ] as const),
        ...([
          [0x0e, 1, codeOf(MODULE_SHAPES, m.shape, 2)],
          [0x10, 1, m.place],
          [0x11, 1, m.bank],
        ] as const),
        ...([
          [0x12, 1, codeOf(MODULE_TYPES, m.type, 2)],
          [0x15, 2, rated],
          [0x17, 1, m.maker],
        ] as const),
        ...([
          [0x18, 1, serial],
          [0x19, 1, tag],
          [0x1a, 1, m.partNumber],
          [0x1b, 1, m.ranks ?? 0],
        ] as const),
        ...([
          [0x1c, 4, isLong ? sizeMiB : 0],
          [0x20, 2, runs],
        ] as const),
        ...([
          [0x54, 4, rated === 0xffff ? ratedMts : 0],
          [0x58, 4, runs === 0xffff ? runsMts : 0],
        ] as const),
      ])
    }),
    ...slots.map((s) =>
      structure(9, 0x11, [
        ...([
          [0x04, 1, s.name],
          [0x05, 1, slotCode(s)],
          [0x06, 1, codeOf(LANES, s.lanes, 2)],
        ] as const),
        ...([
          [0x07, 1, codeOf(USAGES, s.usage, 2)],
          [0x0b, 1, 4],
        ] as const),
      ]),
    ),
    structure(127, 4, []),
  ]
}

export const tableFor = (table: FirmwareTable): Uint8Array => joined(structuresFor(table))

export const joined = (pieces: readonly Uint8Array[]): Uint8Array => {
  const bytes = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const piece of pieces) {
    bytes.set(piece, at)
    at += piece.length
  }
  return bytes
}

const addUp = (bytes: Uint8Array): number => bytes.reduce((a, b) => (a + b) & 0xff, 0)

const [MAJOR, MINOR] = [3, 2]

/** A 64-bit entry point (5.2.2); `address` 32 is where dump files put the table. */
export function entry64(tableBytes: number, address = 32): Uint8Array {
  const entry = new Uint8Array(0x18)
  entry.set(new TextEncoder().encode('_SM3_'))
  entry.set([0x18, MAJOR, MINOR, 0, 1], 6)
  const view = new DataView(entry.buffer)
  view.setUint32(0x0c, tableBytes, true)
  view.setBigUint64(0x10, BigInt(address), true)
  entry[5] = -addUp(entry) & 0xff
  return entry
}

/** A 32-bit entry point (5.2.1). */
export function entry32(tableBytes: number, count: number, address = 32): Uint8Array {
  const entry = new Uint8Array(0x1f)
  entry.set(new TextEncoder().encode('_SM_'))
  entry.set([0x1f, MAJOR, MINOR], 5)
  entry.set(new TextEncoder().encode('_DMI_'), 0x10)
  const view = new DataView(entry.buffer)
  view.setUint16(0x16, tableBytes, true)
  view.setUint32(0x18, address, true)
  view.setUint16(0x1c, count, true)
  entry[0x15] = -addUp(entry.subarray(0x10)) & 0xff
  entry[4] = -addUp(entry) & 0xff
  return entry
}

/** As a dump file holds it: entry point, then the table at byte 32. */
export const dumpOf = (table: Uint8Array, entry = entry64(table.length)): Uint8Array =>
  joined([entry, new Uint8Array(32 - entry.length), table])

/** As Windows gives it (RawSMBIOSData). */
export function windowsOf(table: Uint8Array): Uint8Array {
  const header = new Uint8Array([0, MAJOR, MINOR, 0, 0, 0, 0, 0])
  new DataView(header.buffer).setUint32(4, table.length, true)
  return joined([header, table])
}
