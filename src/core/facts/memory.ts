import type { MemoryType } from '../part.ts'
import type { Confidence, FactSource } from '../source.ts'
import { SOURCES } from './sources.ts'

/** One data rate of a memory standard, in MT/s. */
export type MemoryRate = {
  readonly type: MemoryType
  readonly rateMts: number
  readonly source: FactSource
  readonly confidence: Confidence
}

const rows = (
  type: MemoryType,
  source: FactSource,
  rates: readonly number[],
  seen: readonly number[],
): MemoryRate[] =>
  rates.map((rateMts) => ({
    type,
    rateMts,
    source,
    confidence: seen.includes(rateMts) ? 'seen' : 'memory',
  }))

const DDR3 = [800, 1066, 1333, 1600, 1866, 2133]
const DDR4 = [1600, 1866, 2133, 2400, 2666, 2933, 3200]
const DDR5 = [3200, 3600, 4000, 4400, 4800, 5200, 5600, 6000, 6400]

/** Standard data rates. DDR3L is DDR3 at a lower voltage, with the same rates. */
export const MEMORY_RATES: readonly MemoryRate[] = [
  ...rows('DDR3', SOURCES.ddr3, DDR3, [800, 2133]),
  ...rows('DDR3L', SOURCES.ddr3, DDR3, [800, 2133]),
  ...rows('DDR4', SOURCES.ddr4, DDR4, DDR4),
  ...rows('DDR5', SOURCES.ddr5, DDR5, [3200, 4800, 5200, 5600, 6400]),
]

/** Bytes a module moves with one transfer: its data path is 64 bits wide (DDR5: two of 32). */
const BYTES_PER_TRANSFER = 8

/** Peak rate of one module in decimal GB/s: rateMts x 8 bytes / 1000. Two channels double it. */
export const moduleGBps = (rateMts: number): number => (rateMts * BYTES_PER_TRANSFER) / 1000
