/** The longer of two times, a little more where they are alike: `log (A^p + B^p)^(1/p)` from log A and log B. */
export function smax(a: number, b: number, p: number): number {
  return Math.max(a, b) + Math.log1p(Math.exp(-p * Math.abs(a - b))) / p
}

/** Share of the first side: `A^p / (A^p + B^p)`, the slope of smax in log A. */
export function firstShare(a: number, b: number, p: number): number {
  return 1 / (1 + Math.exp(-p * (a - b)))
}

/** Slope of smax in log p: `-H/p` with the entropy H of the two shares. */
export function sharpnessSlope(a: number, b: number, p: number): number {
  const shareA = firstShare(a, b, p)
  return shareA * a + (1 - shareA) * b - smax(a, b, p)
}

/** A gain of 5 % that even a part which costs no time would not reach: the other side sets the pace. */
const NO_HELP_LOG = Math.log(1.05)

/** `log B - log A` below this: even B = 0 gains less than 5 %. */
export const noHelpBelow = (p: number): number => Math.log(Math.expm1(p * NO_HELP_LOG)) / p
