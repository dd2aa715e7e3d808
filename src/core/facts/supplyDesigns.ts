import type { SupplyDesign } from '../part.ts'
import type { Confidence, FactSource } from '../source.ts'

/** The two classes of the guide: above 450 W with a 16-pin plug, and all others. */
export const PEAK_CLASSES = ['above 450 W with a 16-pin plug', 'others'] as const
export type PeakClass = (typeof PEAK_CLASSES)[number]

/** What a supply of issue 3 must ride through, in percent of its rating. */
export type SupplyPeak = {
  readonly peakClass: PeakClass
  readonly durationUs: number
  readonly ofRatedPct: number
  /** Share of the time at the peak in the test; the rest keeps the mean square at the rating. */
  readonly testDutyPct: number
  readonly source: FactSource
  readonly confidence: Confidence
}

/** Read in 613768, which prints the same table for the single-rail guide. */
const SOURCE: FactSource = {
  kind: 'standard',
  text: 'Intel 336521 (ATX 3.0), Table 3-3, as printed in Intel 613768 rev 2.01',
}

const rows = (peakClass: PeakClass, ...percent: readonly [number, number, number, number]): SupplyPeak[] =>
  DURATIONS.map(([durationUs, testDutyPct], i) => ({
    ...{ peakClass, durationUs, testDutyPct },
    ofRatedPct: percent[i] ?? 100,
    source: SOURCE,
    confidence: 'seen',
  }))

/** 100 us, 1 ms, 10 ms and 100 ms, each with its duty in the test. */
const DURATIONS = [
  [100, 5],
  [1000, 8],
  [10_000, 12.5],
  [100_000, 25],
] as const

export const SUPPLY_PEAKS: readonly SupplyPeak[] = [
  ...rows('above 450 W with a 16-pin plug', 200, 180, 160, 120),
  ...rows('others', 150, 145, 135, 110),
]

/** The rating above which the guide asks for a 16-pin plug, and for more of a supply that has one. */
export const LARGE_SUPPLY_W = 450

/**
 * What a card above 300 W may take for 100 us, in times its sustained power: the factor by the table, the duration as
 * Intel stated it when CEM 5.0 came (2022). What is allowed for longer is drawn in a figure that we have not read.
 */
export const CARD_PEAK = {
  factor: 3,
  durationUs: 100,
  source: {
    kind: 'standard',
    text: 'Intel 336521 rev 2.1a, Table 4-3: steps of the card rails from 100 % to 300 %; PCI Express CEM 5.0, power excursions',
  },
  confidence: 'seen',
} as const satisfies { factor: number; durationUs: number; source: FactSource; confidence: Confidence }

/** Card classes up to here are those of earlier CEM editions, which allow no peak (Intel 336521, section 3.1). */
export const PEAKS_ABOVE_W = 300

/** Whether the issue promises any peak above the rating. */
export const promisesPeaks = (design: SupplyDesign | undefined): boolean =>
  design === 'ATX 3.0' || design === 'ATX 3.1'

/** Percent of its rating that a supply of issue 3 must give for that long. */
export function peakPct(peakClass: PeakClass, durationUs: number): number {
  const found = SUPPLY_PEAKS.find((p) => p.peakClass === peakClass && p.durationUs === durationUs)
  return found?.ofRatedPct ?? 100
}
