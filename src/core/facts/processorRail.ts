import type { Confidence, FactSource } from '../source.ts'

/** What a supply must give the processor of one heat class over its own 12 V rail. */
export type ProcessorRail = {
  /** Heat class on the box. */
  readonly classW: number
  /** The sustained limit (PL2): anything longer than 1 s. */
  readonly continuousA: number
  /** The short peak (PL4): at most 10 ms. */
  readonly peakA: number
  readonly continuousW: number
  readonly peakW: number
  readonly source: FactSource
  readonly confidence: Confidence
}

/** The guide turns currents into watts at the lowest voltage that the rail may have (section 3.2). */
export const RAIL_V = 11.2

const SOURCE: FactSource = { kind: 'standard', text: 'Intel 336521 (ATX 3.0), Table 2-1 and its notes' }

const row = (classW: number, continuousA: number, peakA: number): ProcessorRail => ({
  ...{ classW, continuousA, peakA },
  continuousW: wattsOf(continuousA),
  peakW: wattsOf(peakA),
  source: SOURCE,
  confidence: 'seen',
})

/** To a tenth of a watt: 37.5 x 11.2 comes out a hair under 420 in binary. */
const wattsOf = (ampere: number): number => Math.round(ampere * RAIL_V * 10) / 10

/** From the smallest class to the largest. */
export const PROCESSOR_RAILS: readonly ProcessorRail[] = [
  row(35, 11, 19),
  row(65, 23, 34),
  row(125, 26, 39),
  row(165, 37.5, 40),
]

/**
 * The short peak in W of a processor with that sustained limit: of the smallest class whose continuous power is no
 * less. `undefined` above the table, where nothing is published.
 */
export const peakPowerW = (limitW: number): number | undefined =>
  PROCESSOR_RAILS.find(({ continuousW }) => limitW <= continuousW)?.peakW
