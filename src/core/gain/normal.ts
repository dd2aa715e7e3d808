/*
 * The standard normal distribution, exact to some 1e-15, left tail included.
 * Middle: Marsaglia, "Evaluating the Normal Distribution", J. Stat. Softw. 11(4), 2004. Tails: continued fraction of
 * Laplace (Abramowitz & Stegun 26.2.14).
 */

const LOG_SQRT_2PI = 0.9189385332046727
/** From here on the fraction converges fast enough and keeps the relative precision of a tail. */
const TAIL = 3
const FRACTION_TERMS = 50

/** Density of a standard normal figure at x. */
export const normalDensity = (x: number): number => Math.exp(-0.5 * x * x - LOG_SQRT_2PI)

/** `x + 1/(x + 2/(x + 3/(x + ...)))`, the density over the upper tail, for x >= 3. */
function hazardOfTail(x: number): number {
  let value = x
  for (let k = FRACTION_TERMS; k >= 1; k--) value = x + k / value
  return value
}

/** Probability that a standard normal figure is at most x. */
export function normalCdf(x: number): number {
  if (Number.isNaN(x)) return Number.NaN
  if (x <= -TAIL) return x === Number.NEGATIVE_INFINITY ? 0 : normalDensity(x) / hazardOfTail(-x)
  if (x >= TAIL) return x === Number.POSITIVE_INFINITY ? 1 : 1 - normalDensity(x) / hazardOfTail(x)
  let term = x
  let sum = x
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
    term *= (x * x) / k
    sum += term
  }
  return 0.5 + sum * normalDensity(x)
}

/** Natural log of normalCdf, finite far into the left tail. */
export const logNormalCdf = (x: number): number =>
  x <= -TAIL ? -0.5 * x * x - LOG_SQRT_2PI - Math.log(hazardOfTail(-x)) : Math.log(normalCdf(x))

/** `density(x) / normalCdf(x)`: the slope of logNormalCdf. */
export const normalHazard = (x: number): number =>
  x <= -TAIL ? hazardOfTail(-x) : normalDensity(x) / normalCdf(x)
