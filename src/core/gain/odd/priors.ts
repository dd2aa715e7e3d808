import type { OddKind, Slip } from './odd.ts'

/*
 * How often runs go wrong, and how. General judgement of how a bench is run (common practice), set before any trial; the
 * two thresholds were tuned on the simulated shops of the tuning seeds.
 */

/** Of all runs, so many in one: */
export const SLIP_PRIORS: Readonly<Record<Slip, number>> = {
  'ten times': 0.002,
  'a tenth': 0.002,
  swapped: 0.0015,
  'digit missing': 0.0015,
  'digit twice': 0.0005,
}

export const KIND_PRIORS: Readonly<Record<Exclude<OddKind, 'digit' | 'again'>, number>> = {
  slowed: 0.008,
  memory: 0.004,
  setting: 0.006,
  title: 0.001,
  machine: 0.002,
  driver: 0.003,
  unknown: 0.001,
}

/** Of what slows a run, the share that is on the card's side (heat, a fan that stands). */
export const CARD_SLOWED_SHARE = 0.3
/** By how much something slows the processor's side, or the card's, in log frame time: equally likely steps. */
export const PROCESSOR_SLOWED = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6] as const
export const CARD_SLOWED = [0.08, 0.16, 0.24, 0.32] as const

/** Where nothing explains it: as likely anywhere in this width of log frame time. */
export const UNKNOWN_WIDTH = 4

/** A run is told as odd where "nothing is wrong" is less likely than this, and it lies this many spreads off. */
export const FINE_LEAST = 0.6
export const FAR_SPREADS = 3
/** Runs nearer than this to what the model says are not looked at closely. */
export const NEAR_SPREADS = 2.5
/** Of two runs that disagree, one this near to the model is the right one, if the other is not near. */
export const FITS_SPREADS = 1.5
/** Degrees of freedom of runs with nothing wrong: what the formula gets wrong has longer tails than normal. */
export const FINE_NU = 5
/** A second explanation is named where it is at least this share as likely as the first. */
export const SECOND_SHARE = 0.5

/** Memory without its profile: the rate JEDEC starts from for the type, in MT/s (JESD79-4, JESD79-5). */
export const PLAIN_RATE_MTS: Readonly<Record<string, number>> = { DDR3: 1333, DDR4: 2133, DDR5: 4800 }
