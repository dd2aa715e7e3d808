import { MEMORY_TYPES, type MemoryType } from '../part.ts'

/** Lowest rate of each type in MT/s (JEDEC JESD79-3, -4, -5 by their speed tables). */
const LOWEST_MTS: Readonly<Record<MemoryType, number>> = { DDR3: 800, DDR3L: 800, DDR4: 1600, DDR5: 3200 }

/** Rates of the standards in MT/s; a table writes some of them a digit off (2667, 2934). */
const STANDARD_MTS: readonly number[] = [
  ...[800, 1066, 1333, 1600, 1866, 2133, 2400, 2666, 2933, 3200],
  ...[3600, 4000, 4400, 4800, 5200, 5600, 6000, 6400],
]
const DIGITS_OFF = 2

const standardNear = (mts: number): number | undefined =>
  STANDARD_MTS.find((rate) => Math.abs(rate - mts) <= DIGITS_OFF)

/** A rate in MT/s, and the clock it was written as where that is so. */
export type RateRead = { readonly mts: number; readonly clockMhz?: number | undefined }

/**
 * The rate that a table means. Old firmware writes the clock, half the rate, where the rate is due (54 of 168 Ryzen 1000
 * on A320 in the open dataset linuxhw/DMI): a figure below the lowest rate of its type is doubled when that gives a
 * standard rate, and is no figure otherwise. Of other types nothing is corrected.
 */
export function rateOf(written: number | undefined, type: string | undefined): RateRead | undefined {
  if (written === undefined) return undefined
  const known = memoryTypeNamed(type)
  if (known === undefined || written >= LOWEST_MTS[known]) return { mts: standardNear(written) ?? written }
  // 1599 may be the lowest rate, a digit off, or the clock of twice as much.
  const isEither = standardNear(written) === LOWEST_MTS[known]
  const mts = isEither ? undefined : standardNear(written * 2)
  return mts === undefined ? undefined : { mts, clockMhz: written }
}

/** The types that our parts have; a table cannot tell DDR3L from DDR3. */
export const memoryTypeNamed = (type: string | undefined): MemoryType | undefined =>
  MEMORY_TYPES.find((known) => known === type)
