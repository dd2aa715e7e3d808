import { TextDecoder } from 'node:util'

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be'

/** Bytes of a text file, in pieces, as UTF-8 without a byte order mark. Figures are the same in any of the three. */
export function asUtf8(encoding: Encoding): {
  readonly push: (piece: Uint8Array) => Buffer
  readonly end: () => Buffer
} {
  if (encoding !== 'utf-8') {
    // The decoder takes the byte order mark off itself.
    const decoder = new TextDecoder(encoding)
    return {
      push: (piece) => Buffer.from(decoder.decode(piece, { stream: true }), 'utf8'),
      end: () => Buffer.from(decoder.decode(), 'utf8'),
    }
  }
  /** The first bytes, until there are enough of them to hold a byte order mark (EF BB BF). */
  let first: Buffer | undefined = Buffer.alloc(0)
  const withoutMark = (bytes: Buffer): Buffer =>
    bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? bytes.subarray(3) : bytes
  return {
    push: (piece) => {
      const bytes = Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength)
      if (first === undefined) return bytes
      first = Buffer.concat([first, bytes])
      if (first.length < 3) return Buffer.alloc(0)
      const begun = withoutMark(first)
      first = undefined
      return begun
    },
    end: () => first ?? Buffer.alloc(0),
  }
}
