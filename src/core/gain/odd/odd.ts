/**
 * What may be wrong with a run that does not fit. `again`: two runs of the same parts, title and setting disagree, and
 * nothing tells which is right. `unknown`: it does not fit, and no explanation fits it either.
 */
export const ODD_KINDS = [
  'digit',
  'slowed',
  'memory',
  'setting',
  'title',
  'machine',
  'driver',
  'again',
  'unknown',
] as const
export type OddKind = (typeof ODD_KINDS)[number]

/** How a figure may have been mistyped. */
export const SLIPS = ['ten times', 'a tenth', 'swapped', 'digit missing', 'digit twice'] as const
export type Slip = (typeof SLIPS)[number]

/** An explanation with what it names. */
export type OddGuess =
  /** `fps`: what was probably meant; absent where a digit is missing and several would do. */
  | { readonly kind: 'digit'; readonly slip: Slip; readonly fps?: number | undefined }
  /** Something slowed the processor's side (background load, the first run after a start) or the card's (heat). */
  | { readonly kind: 'slowed'; readonly side: 'processor' | 'card' }
  /** As if one channel had been in use, or the rate without its profile. */
  | { readonly kind: 'memory'; readonly channels?: 1 | undefined; readonly rateMts?: number | undefined }
  | { readonly kind: 'setting'; readonly settingId: string }
  | { readonly kind: 'title'; readonly titleId: string }
  /** What another machine, or the same one with other parts, would make. */
  | {
      readonly kind: 'machine'
      readonly machineTag: string
      readonly cardId: string
      readonly processorId: string
    }
  /** Other runs of the card with this driver are off in the same way. */
  | { readonly kind: 'driver'; readonly driverVersion: string; readonly runIds: readonly string[] }
  | { readonly kind: 'again'; readonly runId: string }
  | { readonly kind: 'unknown' }

/** A run that does not fit everything else that is known. */
export type Odd = {
  readonly runId: string
  /** What a run like it would make, from all other runs, and the interval that holds four of five such runs. */
  readonly expectedFps: number
  readonly lowFps: number
  readonly highFps: number
  /** Likeliest explanation first; a second one where it is at least half as likely. Never empty. */
  readonly guesses: readonly OddGuess[]
  /** Other runs of the same parts, title and setting that agree with it, all of one machine and day: run it another day. */
  readonly agreeIds: readonly string[]
  /** Probability that nothing is wrong with it, by the priors of `priors.ts`. */
  readonly fine: number
}

/**
 * A part that is slower in one title than one it is faster than elsewhere: a fact once both sides were repeated,
 * till then both are to be run again. `slowerId` is the part that is slower here.
 */
export type Reversal = {
  readonly titleId: string
  readonly settingId: string
  readonly slowerId: string
  readonly fasterId: string
  readonly slowerFps: number
  readonly fasterFps: number
  readonly slowerRunIds: readonly string[]
  readonly fasterRunIds: readonly string[]
  /** Both sides have runs of two days or machines that agree. */
  readonly isFact: boolean
}

export type OddRuns = { readonly odd: readonly Odd[]; readonly reversals: readonly Reversal[] }
