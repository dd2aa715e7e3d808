import type { Basis } from './basis.ts'
import { crossOf, type EndIn, type Side, withFigure } from './ends.ts'
import { type JointSpread, jointSpread } from './points.ts'
import { firstShare } from './smax.ts'

/** A gain in one basis: log of first over second frame time, and what is not known of it and of each end. */
export type Gap = {
  readonly mean: number
  readonly variance: number
  readonly firstVariance: number
  readonly secondVariance: number
}

const mean5 = new Float64Array(5)
const root5 = new Float64Array(25)

/**
 * From one end to another. The mean is a difference of potentials, so gains add up and turn their sign exactly; the
 * spread takes both ends' points together, so that what they have in common cancels. The ends come in one fixed order
 * (by key), for the points depend on it.
 *
 * @param elsewhere whether each end's runs were made on other machines than the one asked for
 */
export function gapBetween(
  basis: Basis,
  first: EndIn,
  second: EndIn,
  elsewhere: { readonly first: boolean; readonly second: boolean },
): Gap {
  mean5[0] = first.a.mean
  mean5[1] = first.b.mean
  mean5[2] = second.a.mean
  mean5[3] = second.b.mean
  mean5[4] = first.logp.mean
  const sides = [first.a, first.b, second.a, second.b] as const
  for (let r = 0; r < 4; r++) {
    const s = sides[r] as (typeof sides)[0]
    for (let c = 0; c < r; c++) root5[r * 5 + c] = crossOf(basis, s, sides[c] as (typeof sides)[0])
    root5[r * 6] = s.variance
    root5[20 + r] = first.logp.at < 0 ? 0 : withFigure(basis, s, first.logp.at)
  }
  root5[24] = first.logp.variance
  const spread = jointSpread(basis.form, mean5, root5, first.blend, second.blend)
  const alike = first.group === second.group
  const machine = basis.machineSd
  const [m0, m1] = [elsewhere.first ? first.blend.k : 0, elsewhere.second ? second.blend.k : 0]
  // What other machines' runs bring in of their own is the same at both ends where the same runs speak.
  const machines = (alike ? (m0 - m1) ** 2 : m0 * m0 + m1 * m1) * machine * machine
  const { freeFirst: f0, freeSecond: f1 } = spread
  const common = alike ? 2 * Math.min(f0, f1) * Math.sqrt(first.common * second.common) : 0
  const width2 = basis.width ** 2
  const own = f0 * first.own + f1 * second.own - common + Math.max(f0, f1) * machines
  return {
    mean: first.m - second.m,
    variance:
      width2 * (basis.calibration ** 2 * (withLines(basis, first, second, spread) + Math.max(0, own))),
    firstVariance:
      width2 * (spread.first + f0 * (first.own + (m0 * machine) ** 2 + (first.line?.variance ?? 0))),
    secondVariance:
      width2 * (spread.second + f1 * (second.own + (m1 * machine) ** 2 + (second.line?.variance ?? 0))),
  }
}

/**
 * Variance of the gain with the ends' lines. The points have told the gain's own, which the slopes at the middle
 * tell less well; so of these only the correlation is taken, which keeps the sum from falling below zero.
 */
function withLines(basis: Basis, first: EndIn, second: EndIn, spread: JointSpread): number {
  const { difference: alone, freeFirst, freeSecond } = spread
  // At a cap memory and link move nothing.
  const lines: Weighted[] = [
    ...(first.line && freeFirst > 0 ? [{ side: first.line, by: freeFirst }] : []),
    ...(second.line && freeSecond > 0 ? [{ side: second.line, by: -freeSecond }] : []),
  ]
  if (lines.length === 0) return alone
  const gain = [...slopesOf(basis, first, 1), ...slopesOf(basis, second, -1)]
  const own = covarianceOf(basis, lines, lines)
  const straight = covarianceOf(basis, gain, gain)
  if (!(own > 0) || !(straight > 0)) return alone + Math.max(0, own)
  const correlation = covarianceOf(basis, lines, gain) / Math.sqrt(own * straight)
  return alone + own + 2 * Math.max(-1, Math.min(1, correlation)) * Math.sqrt(alone * own)
}

type Weighted = { readonly side: Side; readonly by: number }

const covarianceOf = (basis: Basis, ones: readonly Weighted[], others: readonly Weighted[]): number =>
  ones.reduce(
    (sum, one) =>
      sum + others.reduce((s, other) => s + one.by * other.by * crossOf(basis, one.side, other.side), 0),
    0,
  )

function slopesOf({ form }: Basis, { a, b, logp, blend: { k } }: EndIn, sign: 1 | -1): Weighted[] {
  const inA = form === 'sum' ? 1 : firstShare(a.mean, b.mean, Math.exp(logp.mean))
  const inB = form === 'sum' ? 1 : 1 - inA
  return [
    { side: a, by: sign * (1 - k) * inA },
    { side: b, by: sign * (1 - k) * inB },
  ]
}
