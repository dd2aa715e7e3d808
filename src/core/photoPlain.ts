import { photoTypeOf } from './photo.ts'

// What a picture carries beside what is seen on it: where and when it was taken, by which device, comments, previews of
// what was cut away. None of it is kept. How a camera was held is: without it the picture would lie on its side.

/** The picture without what tells of its maker; as it came where its pieces do not add up, so nothing gets lost. */
export function plainPhoto(bytes: Uint8Array): Uint8Array {
  switch (photoTypeOf(bytes)) {
    case 'image/jpeg':
      return plainJpeg(bytes) ?? bytes
    case 'image/png':
      return plainPng(bytes) ?? bytes
    case 'image/webp':
      return plainWebp(bytes) ?? bytes
    default:
      return bytes
  }
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
const textAt = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length))

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const piece of pieces) {
    whole.set(piece, at)
    at += piece.length
  }
  return whole
}

/** Markers of ITU-T T.81, table B.1. */
const JPEG = {
  start: 0xd8,
  scan: 0xda,
  end: 0xd9,
  comment: 0xfe,
  app0: 0xe0,
  app1: 0xe1,
  app2: 0xe2,
  app14: 0xee,
}
const isApp = (marker: number): boolean => marker >= JPEG.app0 && marker <= 0xef

/**
 * Segments before the first scan (ITU-T T.81, B.1.1.4): comments and application segments go, but for those that say how
 * the picture is to be drawn: JFIF (APP0), a colour profile (ICC.1, B.4: APP2), Adobe's colour transform (APP14).
 * What follows the end of the picture (other pictures, films) goes too.
 */
function plainJpeg(bytes: Uint8Array): Uint8Array | undefined {
  const view = viewOf(bytes)
  const kept: Uint8Array[] = [bytes.subarray(0, 2)]
  let orientation = 1
  for (let at = 2; at + 4 <= bytes.length; ) {
    if (bytes[at] !== 0xff) return undefined
    const marker = bytes[at + 1] ?? 0
    // Fill bytes before a marker (B.1.1.2).
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === JPEG.scan) {
      const upright = orientation === 1 ? [] : [orientationSegment(orientation)]
      return joined([
        ...kept.slice(0, 1),
        ...upright,
        ...kept.slice(1),
        bytes.subarray(at, endOfJpeg(bytes, at)),
      ])
    }
    const length = view.getUint16(at + 2)
    const next = at + 2 + length
    if (length < 2 || next > bytes.length) return undefined
    if (marker === JPEG.app1) orientation = orientationIn(bytes.subarray(at + 4, next)) ?? orientation
    const isDrawn =
      marker === JPEG.app0 ||
      marker === JPEG.app14 ||
      (marker === JPEG.app2 && textAt(bytes, at + 4, 11) === 'ICC_PROFILE')
    if (marker !== JPEG.comment && (!isApp(marker) || isDrawn)) kept.push(bytes.subarray(at, next))
    at = next
  }
  return undefined
}

/** Behind the first end of image that follows the scan: inside scans FF is always followed by 00 or a restart (B.1.1.5). */
function endOfJpeg(bytes: Uint8Array, from: number): number {
  const view = viewOf(bytes)
  for (let at = from; at + 1 < bytes.length; at++) {
    if (bytes[at] !== 0xff) continue
    const marker = bytes[at + 1] ?? 0
    if (marker === JPEG.end) return at + 2
    if (marker === 0x00 || marker === 0xff || (marker >= 0xd0 && marker <= 0xd7)) continue
    // Tables and headers between scans: their bytes are no markers.
    if (at + 4 <= bytes.length) at += 1 + view.getUint16(at + 2)
  }
  return bytes.length
}

const EXIF = 'Exif\0\0'
const ORIENTATION = 0x0112

/** How the camera was held, from an Exif segment (CIPA DC-008, 4.6: tag 0112 in the first directory of a TIFF file). */
function orientationIn(segment: Uint8Array): number | undefined {
  return textAt(segment, 0, EXIF.length) === EXIF
    ? orientationOfTiff(segment.subarray(EXIF.length))
    : undefined
}

function orientationOfTiff(tiff: Uint8Array): number | undefined {
  if (tiff.length < 8) return undefined
  const view = viewOf(tiff)
  const isLittle = textAt(tiff, 0, 2) === 'II'
  const directory = view.getUint32(4, isLittle)
  if (directory + 2 > tiff.length) return undefined
  const count = view.getUint16(directory, isLittle)
  for (let i = 0; i < count; i++) {
    const entry = directory + 2 + i * 12
    if (entry + 12 > tiff.length) return undefined
    if (view.getUint16(entry, isLittle) !== ORIENTATION) continue
    const held = view.getUint16(entry + 8, isLittle)
    return held >= 1 && held <= 8 ? held : undefined
  }
  return undefined
}

/** A TIFF file with the one entry: big-endian, directory at 8, type SHORT, one value. */
const orientationTiff = (held: number): readonly number[] => [
  ...[0x4d, 0x4d, 0x00, 0x2a, 0x00, 0x00, 0x00, 0x08, 0x00, 0x01],
  ...[0x01, 0x12, 0x00, 0x03, 0x00, 0x00, 0x00, 0x01, 0x00, held, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00],
]

function orientationSegment(held: number): Uint8Array {
  const body = [...[...EXIF].map((sign) => sign.charCodeAt(0)), ...orientationTiff(held)]
  const length = body.length + 2
  return new Uint8Array([0xff, JPEG.app1, length >> 8, length & 0xff, ...body])
}

/** Chunks that tell of maker and time (W3C PNG, 11.3.3, 11.3.4, 11.3.5); the picture needs none of them. */
const PNG_TOLD = new Set(['tEXt', 'zTXt', 'iTXt', 'eXIf', 'tIME'])

/** W3C PNG, 5.3: length, type, data, check sum. What follows the end chunk goes. */
function plainPng(bytes: Uint8Array): Uint8Array | undefined {
  const view = viewOf(bytes)
  const kept: Uint8Array[] = [bytes.subarray(0, 8)]
  for (let at = 8; at + 12 <= bytes.length; ) {
    const next = at + 12 + view.getUint32(at)
    if (next > bytes.length) return undefined
    const type = textAt(bytes, at + 4, 4)
    if (!PNG_TOLD.has(type)) kept.push(bytes.subarray(at, next))
    if (type === 'IEND') return joined(kept)
    at = next
  }
  return undefined
}

const WEBP_TOLD = new Set(['EXIF', 'XMP '])
/** RFC 9649, 2.7: bits of the extended header that announce them. */
const WEBP_EXIF_BIT = 0x08
const WEBP_XMP_BIT = 0x04

/** RFC 9649, 2.3 and 2.7: chunks of even length behind "RIFF", size, "WEBP". */
function plainWebp(bytes: Uint8Array): Uint8Array | undefined {
  const view = viewOf(bytes)
  const kept: Uint8Array[] = []
  for (let at = 12; at + 8 <= bytes.length; ) {
    const size = view.getUint32(at + 4, true)
    const next = at + 8 + size + (size % 2)
    if (at + 8 + size > bytes.length) return undefined
    const type = textAt(bytes, at, 4)
    const chunk = bytes.slice(at, Math.min(next, bytes.length))
    if (type === 'VP8X') chunk[8] = (chunk[8] ?? 0) & ~(WEBP_EXIF_BIT | WEBP_XMP_BIT)
    if (!WEBP_TOLD.has(type)) kept.push(chunk)
    at = next
  }
  const body = joined([bytes.slice(8, 12), ...kept])
  const head = bytes.slice(0, 8)
  viewOf(head).setUint32(4, body.length, true)
  return kept.length === 0 ? undefined : joined([head, body])
}
