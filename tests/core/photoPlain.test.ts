import { deflateSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { plainPhoto } from '../../src/core/photoPlain.ts'

// Pictures built by hand from their standards: JPEG (ITU-T T.81, annex B), Exif (CIPA DC-008), PNG (W3C PNG), WebP (RFC 9649).

const ascii = (text: string): number[] => [...text].map((sign) => sign.charCodeAt(0))
const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1')
const segment = (marker: number, body: readonly number[]): number[] => [
  ...[0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff],
  ...body,
]
const PLACE = 'GPS 51.5007 N'

/** Little-endian TIFF: one directory with the orientation, then words that nobody should keep. */
const exif = (held: number): number[] => [
  ...ascii('Exif\0\0II*\0'),
  ...[8, 0, 0, 0, 1, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, held, 0, 0, 0, 0, 0, 0, 0],
  ...ascii(PLACE),
]
const SCAN = [...segment(0xda, [1, 1, 0, 0, 63, 0]), 0x12, 0xff, 0x00, 0xff, 0xd0, 0x34, 0xff, 0xd9]
const jpeg = (held: number, behind: readonly number[] = []): Uint8Array =>
  new Uint8Array([
    ...[0xff, 0xd8],
    ...segment(0xe0, [...ascii('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0]),
    ...segment(0xe1, exif(held)),
    ...segment(0xe1, ascii(`http://ns.adobe.com/xap/1.0/\0${PLACE}`)),
    ...segment(0xe2, ascii('ICC_PROFILE\0profile')),
    ...segment(0xe2, ascii(`MPF\0${PLACE}`)),
    ...segment(0xfe, ascii(PLACE)),
    ...segment(0xdb, [0, ...Array.from({ length: 64 }, () => 1)]),
    ...SCAN,
    ...behind,
  ])

test('a JPEG keeps what it is drawn from and how it was held, and nothing of where it was taken', () => {
  const plain = plainPhoto(jpeg(6, ascii(`a film behind it, ${PLACE}`)))
  expect(text(plain)).not.toContain('GPS')
  expect(text(plain)).not.toContain('adobe')
  for (const drawn of ['JFIF', 'ICC_PROFILE']) expect(text(plain)).toContain(drawn)
  // The picture itself to the byte, up to its end.
  expect([...plain.subarray(plain.length - SCAN.length)]).toEqual(SCAN)
  // Exif with one entry: tag 0112, SHORT, one value, 6 (turned by a quarter).
  expect(text(plain)).toContain(text(new Uint8Array([...ascii('Exif\0\0MM'), 0, 0x2a])))
  expect(text(plain)).toContain(text(new Uint8Array([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6])))
  // Done twice is done once.
  expect([...plainPhoto(plain)]).toEqual([...plain])
})

test('one that was held upright needs no word about that', () => {
  expect(text(plainPhoto(jpeg(1)))).not.toContain('Exif')
})

/** CRC of PNG, annex D, as the sample there. */
function crc(bytes: readonly number[]): number {
  let c = 0xffffffff
  for (const byte of bytes) {
    c ^= byte
    for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1
  }
  return (c ^ 0xffffffff) >>> 0
}
const be32 = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255]
const chunk = (type: string, data: readonly number[]): number[] => {
  const body = [...ascii(type), ...data]
  return [...be32(data.length), ...body, ...be32(crc(body))]
}
const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
const HEAD = chunk('IHDR', [0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0])
const DATA = chunk('IDAT', [...deflateSync(Buffer.from([0, 255]))])

test('a PNG loses its texts, its time and what stands behind its end', () => {
  const told = [
    ...[...chunk('tEXt', ascii(`Comment\0${PLACE}`)), ...chunk('iTXt', ascii(`XML:com.adobe.xmp\0${PLACE}`))],
    ...[...chunk('eXIf', exif(1).slice(6)), ...chunk('tIME', [7, 234, 1, 1, 1, 1, 1])],
  ]
  const end = chunk('IEND', [])
  const gamma = chunk('gAMA', be32(45455))
  const given = [...SIGNATURE, ...HEAD, ...gamma, ...told, ...DATA, ...end, ...ascii(PLACE)]
  expect([...plainPhoto(new Uint8Array(given))]).toEqual([...SIGNATURE, ...HEAD, ...gamma, ...DATA, ...end])
})

const le32 = (n: number): number[] => be32(n).reverse()
const riff = (type: string, data: readonly number[]): number[] => [
  ...[...ascii(type), ...le32(data.length), ...data],
  ...(data.length % 2 === 1 ? [0] : []),
]
const webp = (...chunks: readonly number[][]): number[] => {
  const body = [...ascii('WEBP'), ...chunks.flat()]
  return [...ascii('RIFF'), ...le32(body.length), ...body]
}

test('a WebP loses both chunks, no longer announces them, and its size is true again', () => {
  const picture = riff('VP8L', [0x2f, 1, 2])
  const given = webp(
    riff('VP8X', [0x2c, ...Array(9).fill(0)]),
    picture,
    riff('EXIF', ascii(PLACE)),
    riff('XMP ', ascii(PLACE)),
  )
  // 2C is colour profile (20), Exif (08), XMP (04): the profile's bit stays.
  expect([...plainPhoto(new Uint8Array(given))]).toEqual(
    webp(riff('VP8X', [0x20, ...Array(9).fill(0)]), picture),
  )
})

test('what breaks off in the middle stays as it came, and nothing throws', () => {
  const whole = [
    jpeg(6),
    new Uint8Array([...SIGNATURE, ...HEAD, ...DATA]),
    new Uint8Array(webp(riff('VP8L', [0x2f, 1, 2, 3]))),
  ]
  for (const bytes of whole)
    for (let end = 0; end < bytes.length; end++) {
      const cut = bytes.subarray(0, end)
      const plain = plainPhoto(cut)
      expect(plain.length).toBeLessThanOrEqual(cut.length)
    }
})
