import type { Problem } from './layout.ts'

/** Spreads that a fit goes by; learned once from the runs (empirical.ts). */
export type Scales = {
  /** Standard deviation of each class of atoms. */
  readonly of: Float64Array
  /** What the formula gets wrong in a cell, and one run, as standard deviations of log frame time. */
  readonly tau: number
  readonly sigma: number
  /** Of parts around their nominal figure. */
  readonly processorNominal: number
  readonly cardNominal: number
}

export const startScales = ({ classes, priors }: Problem): Scales => ({
  of: classes.s0.slice(),
  tau: priors.tau.s0,
  sigma: priors.sigma.s0,
  processorNominal: priors.parts.processorNominal.s0,
  cardNominal: priors.parts.cardNominal.s0,
})

/** Prior precision of each shared figure. */
export function sharedPrecision({ shared }: Problem, scales: Scales): Float64Array {
  const sds = [0, scales.processorNominal, scales.cardNominal]
  return shared.sd.map((sd, i) => 1 / (sds[shared.scale[i] as number] || sd) ** 2)
}
