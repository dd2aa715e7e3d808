import { decodeTable, type Outside } from '../core/firmwareTable/decode.ts'
import type { TableFault } from '../core/firmwareTable/structures.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { bytesOfText } from './byteText.ts'
import { firmwareTableSchema } from './stored.ts'

/** Largest file or text that is looked at. A table has a few thousand bytes; as text with places beside it, five times that. */
export const READING_BYTES = 4 * 1024 * 1024
/** Largest table: well above what servers have. */
const TABLE_BYTES = 1024 * 1024

/**
 * Reads a machine's firmware table from whatever it was saved as: the bytes of a file (bare table, table behind its entry
 * point, table behind the Windows header), or the same as hex or base64 text in any usual layout. Serial numbers, asset
 * tags and the UUID are not read, so they are in nothing that comes out.
 *
 * @param field the form field or operand that problems name
 * @returns the table, or exactly one problem
 */
export function readFirmware(given: Uint8Array | string, field: string): Result<FirmwareTable> {
  const refuse = (next: string): { ok: false; problems: readonly Problem[] } =>
    failed({ code: 'unreadable', field, allowed: ALLOWED, next })
  if (given.length > READING_BYTES) return refuse(TOO_LARGE)
  const bytes = bytesOfText(given)
  if (!bytes.ok) return refuse(bytes.next)
  if (bytes.value.length === 0)
    return failed({
      code: 'missing',
      field,
      allowed: ALLOWED,
      next: 'There is nothing in it. Give the text or the file.',
    })
  const bare = withoutHeader(bytes.value)
  if (!bare.ok) return refuse(bare.next)
  if (bare.table.length > TABLE_BYTES) return refuse(TOO_LARGE)
  const decoded = decodeTable(bare.table, bare.outside)
  return decoded.ok ? ok(decoded.table) : refuse(sayFault(decoded.fault))
}

const ALLOWED = 'a firmware table (SMBIOS): as a file, or as hex or base64 text'
const AGAIN = 'Save or copy the whole of it once more.'
const TOO_LARGE =
  'This is larger than any firmware table. Give the table alone: a few kilobytes, as text a few times that.'

type Bare =
  | { readonly ok: true; readonly table: Uint8Array; readonly outside: Outside }
  | { readonly ok: false; readonly next: string }

const view = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

/** Takes off what stands before the table, and holds it against what that promises. */
function withoutHeader(bytes: Uint8Array): Bare {
  if (startsWith(bytes, '_SM3_')) return behindEntry64(bytes)
  if (startsWith(bytes, '_SM_')) return behindEntry32(bytes)
  if (hasWindowsHeader(bytes)) return behindWindowsHeader(bytes)
  return { ok: true, table: bytes, outside: {} }
}

const startsWith = (bytes: Uint8Array, text: string): boolean =>
  [...text].every((letter, at) => bytes[at] === letter.charCodeAt(0))

const sum = (bytes: Uint8Array): number => bytes.reduce((total, byte) => (total + byte) & 0xff, 0)

const BAD_ENTRY = `The header of this table does not add up, so it was changed on its way. ${AGAIN}`
const ENTRY_ALONE =
  'This is only the header of a table. Add the table itself: on Linux it is the file DMI beside it.'
/** Where dump files put the table, and say so in the header; elsewhere it follows the header at once. */
const DUMP_OFFSET = 32

const tableFrom = (bytes: Uint8Array, entryLength: number, address: number): Uint8Array =>
  bytes.subarray(address === DUMP_OFFSET ? DUMP_OFFSET : entryLength)

/** DSP0134, 5.2.2: the size is the largest the table may have, and type 127 ends it. */
function behindEntry64(bytes: Uint8Array): Bare {
  const length = bytes[6] ?? 0
  if (length < 0x18 || length > bytes.length || sum(bytes.subarray(0, length)) !== 0)
    return { ok: false, next: BAD_ENTRY }
  const address = view(bytes).getUint32(0x10, true)
  const table = tableFrom(bytes, length, address).subarray(0, view(bytes).getUint32(0x0c, true))
  if (table.length === 0) return { ok: false, next: ENTRY_ALONE }
  return { ok: true, table, outside: { version: `${bytes[7]}.${bytes[8]}` } }
}

/** DSP0134, 5.2.1: the exact length of the table and the number of its structures; 0x1E stands for 0x1F in old ones. */
function behindEntry32(bytes: Uint8Array): Bare {
  const length = Math.max(bytes[5] ?? 0, 0x1f)
  if (
    length > 0x20 ||
    bytes.length < length ||
    sum(bytes.subarray(0, bytes[5] ?? 0)) !== 0 ||
    sum(bytes.subarray(0x10, 0x1f)) !== 0
  )
    return { ok: false, next: BAD_ENTRY }
  const address = view(bytes).getUint32(0x18, true)
  const promised = view(bytes).getUint16(0x16, true)
  const behind = tableFrom(bytes, length, address)
  if (behind.length === 0) return { ok: false, next: ENTRY_ALONE }
  if (behind.length < promised) return { ok: false, next: cutShort(promised, behind.length) }
  const count = view(bytes).getUint16(0x1c, true)
  return {
    ok: true,
    table: behind.subarray(0, promised),
    outside: { version: `${bytes[6]}.${bytes[7]}`, count },
  }
}

const WINDOWS_HEADER_BYTES = 8

/**
 * What GetSystemFirmwareTable gives for RSMB: calling method, major, minor, revision, length. As a bare table its second
 * byte would be the length of a structure, and none is shorter than 4.
 */
const hasWindowsHeader = (bytes: Uint8Array): boolean =>
  bytes.length >= WINDOWS_HEADER_BYTES && (bytes[0] ?? 2) <= 1 && (bytes[1] === 2 || bytes[1] === 3)

function behindWindowsHeader(bytes: Uint8Array): Bare {
  const promised = view(bytes).getUint32(4, true)
  const behind = bytes.subarray(WINDOWS_HEADER_BYTES)
  if (behind.length < promised) return { ok: false, next: cutShort(promised, behind.length) }
  return {
    ok: true,
    table: behind.subarray(0, promised),
    outside: { version: `${bytes[1]}.${bytes[2]}`, exact: true },
  }
}

const cutShort = (promised: number, there: number): string =>
  `The table is cut off: its header promises ${promised} bytes, and ${there} are there. ${AGAIN}`

/** One sentence or two for each way bytes are no table. */
function sayFault({ why, at, type }: TableFault): string {
  const where = type === undefined ? `byte ${at}` : `byte ${at}, in a structure of type ${type}`
  if (why === 'nothing') return 'There is no table behind the header. Save or copy the whole of it once more.'
  if (why === 'cut') return `The table breaks off at ${where}. ${AGAIN}`
  if (why === 'no end mark') return `The table has no end mark, so the end of it may be missing. ${AGAIN}`
  if (why === 'short structure')
    return `This is no firmware table, or a damaged one: it stops making sense at ${where}. ${AGAIN}`
  if (why === 'too many')
    return `The table lists more structures of type ${type} than any PC has parts. ${AGAIN}`
  return 'This is a firmware table that tells nothing of board, processor or memory. Read the machine itself, not a virtual one.'
}

/** A table that a page handed on to itself, as JSON of what `readFirmware` gave. */
export function readHandedTable(text: string | undefined, field: string): Result<FirmwareTable> {
  try {
    const table = firmwareTableSchema.safeParse(JSON.parse(text ?? ''))
    if (table.success) return ok(table.data)
  } catch {
    // No JSON: told below.
  }
  return failed({ code: 'unreadable', field, next: 'The page lost what it had read. Read the table again.' })
}
