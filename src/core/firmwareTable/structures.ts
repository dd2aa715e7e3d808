/**
 * One structure of a table (DSP0134, 6.1.2): a formatted area that begins with type, length and handle, and its texts.
 * Both are views of the bytes that were given; nothing is copied.
 */
export type Structure = {
  readonly type: number
  readonly handle: number
  readonly formatted: Uint8Array
  /** Texts, each ended by a zero byte; the zero that ends the set is not among them. */
  readonly texts: Uint8Array
}

/** Why bytes are no table that can be relied on. `at` counts bytes of the table from 0. */
export type TableFault = {
  readonly why: 'nothing' | 'cut' | 'short structure' | 'no end mark' | 'too many' | 'says nothing'
  readonly at: number
  readonly type?: number | undefined
}

export type Split =
  | { readonly ok: true; readonly structures: readonly Structure[] }
  | { readonly ok: false; readonly fault: TableFault }

const HEADER_BYTES = 4
const END_OF_TABLE = 127

/**
 * Splits a table into the structures whose type is wanted. A structure that is shorter than its header or runs past the
 * end, texts without an end, and a table without its end mark (type 127, 7.46) are faults: half a table would tell that
 * parts are gone. Every step goes forward, so the time is linear in the bytes.
 *
 * @param count number of structures that a 32-bit entry point promises; that many without an end mark are whole too
 * @param exact a header promised this very length: structures that fill it without an end mark are whole too
 */
export function splitTable(
  table: Uint8Array,
  wanted: ReadonlySet<number>,
  { count, exact = false }: { readonly count?: number | undefined; readonly exact?: boolean | undefined },
): Split {
  if (table.length === 0) return refuse('nothing', 0)
  const structures: Structure[] = []
  let at = 0
  for (let seen = 1; at < table.length; seen++) {
    const type = table[at] ?? END_OF_TABLE
    if (at + HEADER_BYTES > table.length) return refuse('cut', at)
    const length = table[at + 1] ?? 0
    if (length < HEADER_BYTES) return refuse('short structure', at, type)
    if (at + length > table.length) return refuse('cut', at, type)
    if (type === END_OF_TABLE) return { ok: true, structures }
    const end = endOfTexts(table, at + length)
    if (end === undefined) return refuse('cut', at, type)
    if (wanted.has(type)) {
      const handle = (table[at + 2] ?? 0) | ((table[at + 3] ?? 0) << 8)
      const texts = table.subarray(at + length, end - 1)
      structures.push({ type, handle, formatted: table.subarray(at, at + length), texts })
    }
    at = end
    if (seen === count) return { ok: true, structures }
  }
  return exact ? { ok: true, structures } : refuse('no end mark', at)
}

const refuse = (why: TableFault['why'], at: number, type?: number): Split => ({
  ok: false,
  fault: { why, at, ...(type !== undefined && { type }) },
})

/** Behind the first two zero bytes in a row at or after `from`; undefined when there are none. */
function endOfTexts(table: Uint8Array, from: number): number | undefined {
  for (let at = table.indexOf(0, from); at >= 0; at = table.indexOf(0, at + 1))
    if (table[at + 1] === 0) return at + 2
  return undefined
}

/** A byte of the formatted area; undefined where the structure is too short to have it, whatever the version says. */
export const byteAt = ({ formatted }: Structure, at: number): number | undefined => formatted[at]

/** A little-endian number of 2 or 4 bytes, or undefined likewise. */
export function numberAt({ formatted }: Structure, at: number, bytes: 2 | 4): number | undefined {
  if (at + bytes > formatted.length) return undefined
  const view = new DataView(formatted.buffer, formatted.byteOffset, formatted.byteLength)
  return bytes === 2 ? view.getUint16(at, true) : view.getUint32(at, true)
}

/** A little-endian number of 8 bytes, rounded where it passes 2^53. */
export function longAt(structure: Structure, at: number): number | undefined {
  const [low, high] = [numberAt(structure, at, 4), numberAt(structure, at + 4, 4)]
  return low === undefined || high === undefined ? undefined : low + high * 2 ** 32
}

/** Longer than any name on a label; what is behind it is left out. */
const TEXT_MAX = 100

/** A field that names a text by its number. `missing`: the number of a text that is not there. */
export type TextField = { readonly text?: string; readonly missing?: true }

/**
 * The text that a field names (6.1.3): printable ASCII, other bytes as `.`, runs of spaces as one. Number 0 and an empty
 * text are not told.
 */
export function textAt(structure: Structure, at: number): TextField {
  const number = byteAt(structure, at)
  if (number === undefined || number === 0) return {}
  const { texts } = structure
  let from = 0
  for (let n = 1; from < texts.length; n++) {
    const zero = texts.indexOf(0, from)
    const to = zero < 0 ? texts.length : zero
    if (n === number) {
      const text = plainText(texts.subarray(from, Math.min(to, from + 2 * TEXT_MAX)))
      return text === '' ? {} : { text }
    }
    from = to + 1
  }
  return { missing: true }
}

const plainText = (bytes: Uint8Array): string => {
  let text = ''
  for (const byte of bytes) text += byte >= 0x20 && byte < 0x7f ? String.fromCharCode(byte) : '.'
  return text.replace(/ +/g, ' ').trim().slice(0, TEXT_MAX).trim()
}
