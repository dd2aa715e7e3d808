import type { Confidence, FactSource } from '../source.ts'
import { SOURCES } from './sources.ts'

/** One PCI Express generation: raw rate of a lane, and the share of its bits that is data. */
export type LinkGeneration = {
  readonly gen: number
  readonly rateGTps: number
  readonly coding: string
  readonly dataBits: number
  readonly codedBits: number
  readonly source: FactSource
  readonly confidence: Confidence
}

const seen = { source: SOURCES.pcieBase, confidence: 'seen' } as const
const byte = { coding: '8b/10b', dataBits: 8, codedBits: 10 } as const
const block = { coding: '128b/130b', dataBits: 128, codedBits: 130 } as const

/** Generation 6 is left out: published figures for its usable share disagree, and no board here has it. */
export const LINK_GENERATIONS: readonly LinkGeneration[] = [
  { gen: 1, rateGTps: 2.5, ...byte, ...seen },
  { gen: 2, rateGTps: 5, ...byte, ...seen },
  { gen: 3, rateGTps: 8, ...block, ...seen },
  { gen: 4, rateGTps: 16, ...block, ...seen },
  { gen: 5, rateGTps: 32, ...block, ...seen },
]

/** Widths that a graphics link can have. */
export const LINK_LANES = [1, 2, 4, 8, 16] as const

/**
 * Usable rate of a link in decimal GB/s, one direction: GT/s x data bits / coded bits / 8 x lanes.
 * `undefined` for a generation we have no figure for, or a width that does not exist.
 */
export function linkGBps(gen: number, lanes: number): number | undefined {
  const laneGBps = LANE_GBPS.get(gen)
  return laneGBps === undefined || !WIDTHS.has(lanes) ? undefined : laneGBps * lanes
}

const LANE_GBPS: ReadonlyMap<number, number> = new Map(
  LINK_GENERATIONS.map((g) => [g.gen, (g.rateGTps * g.dataBits) / g.codedBits / 8]),
)
const WIDTHS: ReadonlySet<number> = new Set(LINK_LANES)
