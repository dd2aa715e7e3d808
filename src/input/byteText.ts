/** Bytes out of a text, or what to do about it. */
export type FromText =
  | { readonly ok: true; readonly value: Uint8Array }
  | { readonly ok: false; readonly next: string }

/**
 * Bytes as they are, or the bytes that a text writes as hex or base64 (RFC 4648, with either alphabet, line breaks or
 * PEM lines). Hex may stand bare, with `0x`, commas or spaces, or as the usual dumps print it: places in front, letters
 * behind. Bytes that are themselves a text (UTF-8 or UTF-16 with its mark) are taken as that text.
 */
export function bytesOfText(given: Uint8Array | string): FromText {
  const text = typeof given === 'string' ? given : textOf(given)
  if (text === undefined) return { ok: true, value: typeof given === 'string' ? new Uint8Array() : given }
  const lines = text
    .split(/\r\n?|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '' && !/^-----(?:BEGIN|END) [A-Z ]+-----$/.test(line))
  if (lines.length === 0) return { ok: true, value: new Uint8Array() }
  const hex = hexOf(lines)
  return hex ?? base64Of(lines)
}

/** A table has zero bytes in its first structure, a text has none; UTF-16 begins with its mark. */
function textOf(bytes: Uint8Array): string | undefined {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  for (const byte of bytes) if (byte < 0x20 && byte !== 9 && byte !== 10 && byte !== 13) return undefined
  return new TextDecoder().decode(bytes)
}

/** `00000010:`, `00000010  `, `0000010 ` before the bytes of a dump. */
const PLACE = /^[0-9a-f]{4,16}(?::\s*|\s{2,}|\s(?=[0-9a-f]{2}(?:\s|$)))/i
/** The same bytes as letters behind them: between bars, behind three spaces, or behind two at the end of a full line. */
const LETTERS = /(?:\s{2,}\|.*|\s{3,}.*|(?<=^[0-9a-f\s]{30,})\s{2}\S.*)$/i
const BARE_PLACE = /^[0-9a-f]{6,16}$/i
/** Lines of dumps are short; a longer one is not looked at as such, so that a hostile one costs nothing. */
const DUMP_LINE_MAX = 200
const isDumpLine = (line: string): boolean => line.length <= DUMP_LINE_MAX && PLACE.test(line)

const BETWEEN = /[\s,;:-]+/
const HEX_ONLY = /^[0-9a-fx\s,;:-]+$/i
const WHOLE_BYTES = /^(?:0x)?[0-9a-f]{2,}$/i

const LEFT_OUT =
  'This dump leaves repeated lines out (*). Make it again with every line: with -v where the program takes it.'
const ODD_HEX = 'The hex text has half a byte in it, so a piece is missing. Copy the whole of it once more.'

/** The bytes, when every line reads as hex; undefined when it is something else. */
function hexOf(lines: readonly string[]): FromText | undefined {
  const digits: string[] = []
  const isDump = lines.filter(isDumpLine).length > lines.length / 2
  for (const [n, line] of lines.entries()) {
    if (line === '*' && isDump) return { ok: false, next: LEFT_OUT }
    if (isDump && n === lines.length - 1 && BARE_PLACE.test(line)) continue
    const bytes = isDump && isDumpLine(line) ? line.replace(PLACE, '').replace(LETTERS, '').trim() : line
    if (!HEX_ONLY.test(bytes)) return undefined
    const groups = bytes.split(BETWEEN).filter((group) => group !== '')
    if (!groups.every((group) => WHOLE_BYTES.test(group))) return undefined
    digits.push(groups.map((group) => group.replace(/^0x/i, '')).join(''))
  }
  const all = digits.join('')
  if (all.length % 2 !== 0) return { ok: false, next: ODD_HEX }
  return { ok: true, value: Uint8Array.from({ length: all.length / 2 }, (_, i) => byteOf(all, 2 * i)) }
}

const byteOf = (hex: string, at: number): number => Number.parseInt(hex.slice(at, at + 2), 16)

const REPORT =
  'This looks like a report in words. Give the table itself: its bytes, or the same as hex or base64.'
const NEITHER =
  'This is neither hex nor base64. Copy the whole output of the line that prints the table, or give the file.'
const SHORT_BASE64 = 'The base64 text is not whole. Copy all of it, from the first sign to the last.'

/** A word or two are no table: the smallest has more bytes. */
const FEWEST_LETTERS = 100

function base64Of(lines: readonly string[]): FromText {
  const text = lines
    .join('')
    .replace(/[\s"']/g, '')
    .replaceAll('-', '+')
    .replaceAll('_', '/')
  if (!/^[A-Za-z0-9+/]+={0,2}$/.test(text)) {
    const isReport = lines.some((line) => /^(?:SMBIOS|Handle 0x|BIOS Information)/.test(line))
    return { ok: false, next: isReport ? REPORT : NEITHER }
  }
  const bare = text.replace(/=+$/, '')
  const isWhole = text.length % 4 === 0 || (bare === text && bare.length % 4 !== 1)
  if (bare.length < FEWEST_LETTERS) return { ok: false, next: NEITHER }
  if (!isWhole) return { ok: false, next: SHORT_BASE64 }
  return { ok: true, value: Uint8Array.from(atob(bare), (letter) => letter.charCodeAt(0)) }
}
