/** Marks that part the cells of a row; `none`: one cell a row. */
export type Parting = ',' | ';' | '\t' | 'none'

/** How the rows of one log are written. */
export type Writing = {
  readonly parting: Parting
  readonly decimalMark: '.' | ','
  /** Byte that ends a row: line feed, or a carriage return alone. */
  readonly rowEnd: 10 | 13
}

const QUOTE = 34
const COMMA = 44
const MINUS = 45
const PLUS = 43
const POINT = 46
const NONE = -1

/** A row of more bytes than this is no row of a table. */
export const ROW_BYTES_MAX = 1 << 18

/** A row has no end within `ROW_BYTES_MAX`: an unclosed quotation mark, or no table at all. */
export class EndlessRow extends Error {}

const isSpace = (byte: number | undefined): boolean => byte === 32 || byte === 9

/**
 * Cuts UTF-8 text that comes in pieces into rows, and tells each that is not blank as a stretch of bytes. A line end
 * between quotation marks belongs to its cell (RFC 4180, section 2.6). Holds one row at most.
 */
export function rowScanner(rowEnd: 10 | 13, row: (bytes: Buffer, from: number, to: number) => void) {
  let begun: Buffer = Buffer.alloc(0)

  const tell = (bytes: Buffer, from: number, to: number): void => {
    const end = to > from && bytes[to - 1] === 13 ? to - 1 : to
    let at = from
    while (at < end && isSpace(bytes[at])) at++
    if (at < end) row(bytes, from, end)
  }
  return {
    push: (piece: Uint8Array): void => {
      const own = Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength)
      const bytes = begun.length === 0 ? own : Buffer.concat([begun, own])
      let from = 0
      let isQuoted = false
      let quote = bytes.indexOf(QUOTE)
      for (let end = bytes.indexOf(rowEnd); end >= 0; end = bytes.indexOf(rowEnd, end + 1)) {
        for (; quote >= 0 && quote < end; quote = bytes.indexOf(QUOTE, quote + 1)) isQuoted = !isQuoted
        if (isQuoted) continue
        tell(bytes, from, end)
        from = end + 1
      }
      if (bytes.length - from > ROW_BYTES_MAX) throw new EndlessRow('a row without an end')
      // A copy: the piece itself is the stream's to use again.
      begun = Buffer.from(bytes.subarray(from))
    },
    end: (): void => {
      if (begun.length > 0) tell(begun, 0, begun.length)
      begun = Buffer.alloc(0)
    },
  }
}

const byteOf = (parting: Parting): number => (parting === 'none' ? NONE : parting.charCodeAt(0))

/** Where the cell that begins at `from` ends; behind its closing quotation mark where it has one. */
function cellEnd(bytes: Buffer, from: number, to: number, mark: number): number {
  let at = from
  while (at < to && (bytes[at] === 32 || (bytes[at] === 9 && mark !== 9))) at++
  if (bytes[at] === QUOTE) {
    at++
    while (at < to && (bytes[at] !== QUOTE || bytes[at + 1] === QUOTE)) at += bytes[at] === QUOTE ? 2 : 1
  }
  while (at < to && bytes[at] !== mark) at++
  return at
}

/** Start of the n-th cell of a row (0 for the first); -1 where the row has fewer. */
function cellStart(bytes: Buffer, from: number, to: number, mark: number, column: number): number {
  let at = from
  for (let n = 0; n < column; n++) {
    at = cellEnd(bytes, at, to, mark) + 1
    if (at > to || mark === NONE) return NONE
  }
  return at
}

/** All cells of a row as trimmed text, without quotation marks. */
export function cellsOf(bytes: Buffer, from: number, to: number, parting: Parting): string[] {
  const mark = byteOf(parting)
  const cells: string[] = []
  for (let at = from; at <= to; ) {
    const end = cellEnd(bytes, at, to, mark)
    cells.push(bareText(bytes.toString('utf8', at, end)))
    at = end + 1
  }
  return cells
}

const bareText = (cell: string): string => {
  const text = cell.trim()
  return text.startsWith('"') && text.endsWith('"') && text.length > 1
    ? text.slice(1, -1).replaceAll('""', '"').trim()
    : text
}

/** One cell as text; undefined where the row has fewer cells. */
export function cellAt(
  bytes: Buffer,
  from: number,
  to: number,
  parting: Parting,
  column: number,
): string | undefined {
  const mark = byteOf(parting)
  const start = cellStart(bytes, from, to, mark, column)
  return start < 0 ? undefined : bareText(bytes.toString('utf8', start, cellEnd(bytes, start, to, mark)))
}

/**
 * The number in a cell: undefined where the cell is empty or missing, NaN where it is no number. Digits are read from
 * the bytes themselves, which is what makes long logs quick; what is unusual (exponents, over 15 digits) goes by way
 * of text. Either way the result is the double that is nearest to what is written.
 */
export function numberAt(
  bytes: Buffer,
  from: number,
  to: number,
  { parting, decimalMark }: Writing,
  column: number,
): number | undefined {
  const mark = byteOf(parting)
  let at = cellStart(bytes, from, to, mark, column)
  if (at < 0) return undefined
  let end = cellEnd(bytes, at, to, mark)
  while (at < end && isSpace(bytes[at])) at++
  while (end > at && isSpace(bytes[end - 1])) end--
  if (end - at > 1 && bytes[at] === QUOTE && bytes[end - 1] === QUOTE) {
    at++
    end--
  }
  if (at === end) return undefined

  const start = at
  const isNegative = bytes[at] === MINUS
  if (isNegative || bytes[at] === PLUS) at++
  const point = decimalMark === ',' ? COMMA : POINT
  let digits = 0
  let value = 0
  let decimals = 0
  let isFraction = false
  for (; at < end; at++) {
    const byte = bytes[at] ?? 0
    if (byte >= 48 && byte <= 57) {
      value = value * 10 + (byte - 48)
      digits++
      if (isFraction) decimals++
    } else if (byte === point && !isFraction && digits > 0) isFraction = true
    else break
  }
  // Whole numbers below 2^53 and powers of ten up to 10^22 are exact, so one division rounds once (Clinger, PLDI 1990).
  if (at === end && digits > 0 && digits <= 15) {
    const size = decimals === 0 ? value : value / (POWERS_OF_TEN[decimals] ?? Number.NaN)
    return isNegative ? -size : size
  }
  const text = bytes.toString('latin1', start, end)
  return numberOf(decimalMark === ',' ? text.replace(',', '.') : text)
}

const POWERS_OF_TEN = Array.from({ length: 16 }, (_, power) => 10 ** power)

const WRITTEN = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/
const numberOf = (text: string): number => (WRITTEN.test(text) ? Number(text) : Number.NaN)
