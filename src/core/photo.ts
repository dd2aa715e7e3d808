/** Kinds of picture that are taken from owners. */
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const
export type PhotoType = (typeof PHOTO_TYPES)[number]

/** More than a phone's camera needs for a label. */
export const PHOTO_MAX_BYTES = 5 * 1024 * 1024

const startsWith = (bytes: Uint8Array, signature: readonly number[], at = 0): boolean =>
  bytes.length >= at + signature.length && signature.every((byte, i) => bytes[at + i] === byte)

const ascii = (text: string): number[] => [...text].map((sign) => sign.charCodeAt(0))

/**
 * What a picture is, told by its first bytes and by nothing that its sender says: JPEG starts FF D8 FF (ITU-T T.81,
 * B.1.1), PNG with the eight bytes of its signature (W3C PNG, 5.2), WebP with `RIFF....WEBP` (RFC 9649, 2.4).
 * Undefined for everything else.
 */
export function photoTypeOf(bytes: Uint8Array): PhotoType | undefined {
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return 'image/jpeg'
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png'
  if (startsWith(bytes, ascii('RIFF')) && startsWith(bytes, ascii('WEBP'), 8)) return 'image/webp'
  return undefined
}
