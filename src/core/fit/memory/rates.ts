import { CHANNELS } from '../../limits/known.ts'
import type { YesNo } from '../../limits/limit.ts'
import type { MemoryKit } from '../../part.ts'

/** Rates in MT/s at which a machine's memory is sure to run, and may run with a profile. */
export type Rates = { readonly ratedMts: number; readonly runsMts: number; readonly profileMts: number }

/**
 *   ratedMts   = min(slowest module, controller, board)                    is promised
 *   profileMts = min(slowest module, board) on an open chipset             is overclocking
 *   runsMts    = profileMts with one module a channel, else ratedMts
 *
 * With two modules a channel a profile is seldom reached, so only the rated figure counts (AMD and Intel publish far
 * lower rates for four modules). A chipset that is not known to allow memory overclocking does not.
 */
export function ratesOf(
  slowestMts: number,
  controllerMts: number,
  boardMts: number,
  overclock: YesNo | undefined,
  kits: readonly MemoryKit[],
): Rates {
  const ratedMts = Math.min(slowestMts, controllerMts, boardMts)
  const profileMts = overclock === 'yes' ? Math.min(slowestMts, boardMts) : ratedMts
  const modules = kits.reduce((sum, kit) => sum + (kit.modules ?? Number.NaN), 0)
  return { ratedMts, profileMts, runsMts: modules <= CHANNELS ? profileMts : ratedMts }
}
