import { failed, ok, type Result } from '../../problem.ts'

/**
 * Bytes of a text file as text: UTF-8, or UTF-16 of either order, with or without a byte order mark. The mark is
 * taken off and every line end becomes `\n`. Other encodings and binary files are a problem that names the line.
 */
export function decodeText(bytes: Uint8Array, file: string): Result<string> {
  const encoding = encodingOf(bytes)
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes)
    if (!text.includes('\u0000')) return ok(text.replace(/\r\n?/g, '\n'))
  } catch {
    // Told below, with the line.
  }
  const lenient = new TextDecoder(encoding).decode(bytes).replace(/\r\n?/g, '\n')
  const at = [...lenient].findIndex((letter) => letter === '\u0000' || letter === '\ufffd')
  return failed({
    code: 'unreadable',
    field: file,
    file,
    line: [...lenient].slice(0, Math.max(at, 0)).filter((letter) => letter === '\n').length + 1,
    allowed: 'text in UTF-8 or UTF-16',
    next: 'This is not UTF-8 or UTF-16 text. Save the table as CSV with the encoding UTF-8.',
  })
}

/** By the byte order mark (The Unicode Standard, section 23.8); else by where the zero bytes of Latin letters lie. */
export function encodingOf(bytes: Uint8Array): 'utf-8' | 'utf-16le' | 'utf-16be' {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return 'utf-16le'
  if (first === 0xfe && second === 0xff) return 'utf-16be'
  const start = bytes.subarray(0, Math.min(bytes.length, 1024) & ~1)
  const zeros = [0, 0]
  start.forEach((byte, at) => {
    if (byte === 0) zeros[at % 2] = (zeros[at % 2] ?? 0) + 1
  })
  const [high = 0, low = 0] = zeros
  const many = start.length / 4
  if (low > many && high === 0) return 'utf-16le'
  if (high > many && low === 0) return 'utf-16be'
  return 'utf-8'
}
