import type { Confidence } from '../source.ts'
import { CHIPSETS, chipsetNamed } from './chipsets.ts'

/**
 * Chipsets that let a processor with a free multiplier run above its rated clock (Intel and AMD chipset pages): the Z
 * chipsets of Intel, and of AMD all but the A ones and B840. The rest are locked.
 */
const isFree = (chipset: string): boolean =>
  /^(Z\d|[BX]\d|9\d\d|A68H|A88X)/.test(chipset) && !isLocked(chipset)

/** Intel's B chipsets, and B840. */
const isLocked = (chipset: string): boolean =>
  chipset === 'B840' ||
  (/^B/.test(chipset) && CHIPSETS.find((row) => row.chipset === chipset)?.socket.startsWith('LGA') === true)

/** Whether it was read for the chipset itself; the others follow the rule of their letter, from memory. */
const SEEN =
  /^(B360|B365|H[45][17]0|B460|Z490|B560|Z590|H610|[BHZ]6[679]0|[BHZ]7[679]0|H810|B860|Z890|A[356]20|[BX][345]50|[BX][34]70|X570|[BX]6[57]0E?|B8[45]0|X870E?)$/

/** Multiplier overclocking by chipset; `undefined` for a chipset that is not in the tables. */
export function multiplierOverclock(
  chipset: string | undefined,
): { readonly isAllowed: boolean; readonly confidence: Confidence } | undefined {
  const row = chipsetNamed(chipset)
  if (row === undefined) return undefined
  return { isAllowed: isFree(row.chipset), confidence: SEEN.test(row.chipset) ? 'seen' : 'memory' }
}
