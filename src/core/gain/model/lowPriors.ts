import type { KindPrior, Priors } from './priors.ts'

/*
 * Two estimates of the 1 % low, averaged: the frame times' own model on the low, and the ratio of low to average frame
 * time, which moves little, as a sum of both sides.
 */

/** The slow frames of a run take some 35 % longer than the middle (common practice, from memory). */
const LOW_OVER_AVERAGE = 0.35

/** The same model on the frame time that one frame of a hundred exceeds. */
export const LOW_PRIORS = (priors: Priors): Priors => ({
  ...priors,
  kinds: {
    ...priors.kinds,
    alpha: higher(priors.kinds.alpha as KindPrior),
    beta: higher(priors.kinds.beta as KindPrior),
  },
  tau: { ...priors.tau, s0: 0.04 },
})

const higher = (prior: KindPrior): KindPrior => ({ ...prior, m: prior.m + LOW_OVER_AVERAGE })

const SLOPE: KindPrior = { m: 0, ms: 0.06, s0: 0.03, nu0: 10 }

/** Log of the ratio as a sum: small slopes around none; missing memory shows in the slow frames first. */
export const RATIO_PRIORS = (priors: Priors): Priors => {
  const all = <T>(table: Readonly<Record<string, T>>, value: T): Record<string, T> =>
    Object.fromEntries(Object.keys(table).map((key) => [key, value]))
  const missing: KindPrior = { m: 0.3, ms: 0.3, s0: 0.1, nu0: 10 }
  return {
    ...priors,
    kinds: {
      ...all(priors.kinds, SLOPE),
      beta: { m: LOW_OVER_AVERAGE, ms: 0.3, s0: 0.15, nu0: 4 },
      ramDef: missing,
      vramDef: missing,
    },
    upscalers: all(priors.upscalers, SLOPE),
    otherUpscaler: SLOPE,
    otherPresetProcessor: SLOPE,
    otherPresetGraphics: SLOPE,
    lowered: SLOPE,
    interactions: all(priors.interactions, { s0: 0.03, nu0: 10 }),
    parts: {
      ...priors.parts,
      processor: 0.05,
      card: 0.08,
      processorNominal: { s0: 0.05, nu0: 6 },
      cardNominal: { s0: 0.08, nu0: 6 },
      cardRt: 0.05,
      cardPixels: 0.03,
      processorVariant: 0.03,
      cardVariant: 0.03,
      // What is faster on average is no steadier for it.
      nominalSlope: { m: 0, ms: 0.05 },
    },
    tau: { ...priors.tau, s0: 0.04 },
    sigma: { s0: 0.03, nu0: 10 },
  }
}
