import type { DriveForm, M2Key, M2SocketKey } from '../part.ts'
import type { Confidence, FactSource } from '../source.ts'

const M2: FactSource = {
  kind: 'standard',
  text: 'PCI-SIG M.2 Specification, module sizes and mechanical keys',
}
const SATA: FactSource = { kind: 'standard', text: 'Serial ATA specification, line rate and 8b/10b coding' }

/** One size of M.2 module. All drives are 22 mm wide; the code is width and length in mm. */
export type M2Size = {
  readonly code: string
  readonly widthMm: number
  readonly lengthMm: number
  readonly source: FactSource
  readonly confidence: Confidence
}

const size = (lengthMm: number): M2Size => ({
  code: `22${lengthMm}`,
  widthMm: 22,
  lengthMm,
  source: M2,
  confidence: 'memory',
})

/** Sizes of drives; a socket has a screw at some of these lengths. */
export const M2_SIZES: readonly M2Size[] = [size(30), size(42), size(60), size(80), size(110)]

/** Which notches of a drive pass the ridge of a socket: two notches pass either ridge. E is for wireless cards. */
export const M2_SOCKETS: Readonly<
  Record<M2SocketKey, { readonly takes: readonly M2Key[]; readonly notchPins: string }>
> = {
  M: { takes: ['M', 'B+M'], notchPins: '59-66' },
  B: { takes: ['B', 'B+M'], notchPins: '12-19' },
  E: { takes: [], notchPins: '24-31' },
}
export const M2_KEY_SOURCE = M2

/** One revision of Serial ATA: ten bits on the line carry eight of data. */
export type SataRevision = {
  readonly revision: number
  readonly lineGbitps: number
  readonly dataBits: number
  readonly codedBits: number
  readonly source: FactSource
  readonly confidence: Confidence
}

const byte = { dataBits: 8, codedBits: 10, source: SATA, confidence: 'memory' } as const
export const SATA_REVISIONS: readonly SataRevision[] = [
  { revision: 1, lineGbitps: 1.5, ...byte },
  { revision: 2, lineGbitps: 3, ...byte },
  { revision: 3, lineGbitps: 6, ...byte },
]

/** Data rate of a SATA link in decimal GB/s: line rate x data bits / coded bits / 8. */
export function sataGBps(revision: number): number | undefined {
  const row = SATA_REVISIONS.find((r) => r.revision === revision)
  return row === undefined ? undefined : (row.lineGbitps * row.dataBits) / row.codedBits / 8
}

/** Outlines of drives with a cable; every bay for one takes its form. */
export const BAYS: readonly {
  readonly form: Exclude<DriveForm, 'M.2'>
  readonly widthMm: number
  readonly lengthMm: number
  readonly source: FactSource
  readonly confidence: Confidence
}[] = [
  {
    ...{ form: '2.5-inch', widthMm: 69.85, lengthMm: 100.45, confidence: 'memory' },
    source: { kind: 'standard', text: 'SFF-8201, 2.5-inch form factor drive dimensions' },
  },
  {
    ...{ form: '3.5-inch', widthMm: 101.6, lengthMm: 147, confidence: 'memory' },
    source: { kind: 'standard', text: 'SFF-8301, 3.5-inch form factor drive dimensions' },
  },
]
