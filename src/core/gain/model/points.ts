import { factor } from './cholesky.ts'
import type { Form } from './layout.ts'
import { smax } from './smax.ts'

/*
 * Third-degree cubature: a normal vector of n figures is stood for by the 2n points `mean +- sqrt(n) L_j`. It follows
 * the bend of the smooth maximum, which a straight line does not. Arasaratnam & Haykin, IEEE TAC 54(6), 2009.
 */

/** What an end does with its formula: `max(least, (1 - k) T + k y)`; `least` is the log frame time at a cap. */
export type Blend = { readonly k: number; readonly y: number; readonly least: number }

export const blended = ({ k, y, least }: Blend, t: number): number => Math.max(least, (1 - k) * t + k * y)

const timeOf = (form: Form, a: number, b: number, logp: number): number =>
  form === 'sum' ? a + b : smax(a, b, Math.exp(logp))

const root3 = new Float64Array(9)

/** Mean of the blend over one end's (log A, log B, log p): the potential whose differences are gains. */
export function potential(
  form: Form,
  mean: readonly [number, number, number],
  covariance: Float64Array,
  blend: Blend,
): number {
  root3.set(covariance)
  factor(root3, 3, true)
  let sum = 0
  for (let j = 0; j < 3; j++)
    for (let sign = -1; sign <= 1; sign += 2) {
      const by = sign * Math.sqrt(3)
      const a = mean[0] + (j === 0 ? by * (root3[0] as number) : 0)
      const b = mean[1] + (j <= 1 ? by * (root3[3 + j] as number) : 0)
      const p = mean[2] + by * (root3[6 + j] as number)
      sum += blended(blend, timeOf(form, a, b, p))
    }
  return sum / 6
}

export type JointSpread = {
  /** Variance of first minus second, of each, and the share of points at which each is above its cap's frame time. */
  readonly difference: number
  readonly first: number
  readonly second: number
  readonly freeFirst: number
  readonly freeSecond: number
}

/** Spread of both ends' blends over their (a0, b0, a1, b1, log p); `root` is the covariance, 5 x 5, and is spoilt. */
export function jointSpread(
  form: Form,
  mean: Float64Array,
  root: Float64Array,
  first: Blend,
  second: Blend,
): JointSpread {
  factor(root, 5, true)
  let [s, ss, f, ff, g, gg, freeF, freeG] = [0, 0, 0, 0, 0, 0, 0, 0]
  const at = (i: number, j: number, by: number): number =>
    (mean[i] as number) + (j <= i ? by * (root[i * 5 + j] as number) : 0)
  for (let j = 0; j < 5; j++)
    for (let sign = -1; sign <= 1; sign += 2) {
      const by = sign * SQRT5
      const p = at(4, j, by)
      const t0 = blended(first, timeOf(form, at(0, j, by), at(1, j, by), p))
      const t1 = blended(second, timeOf(form, at(2, j, by), at(3, j, by), p))
      const d = t0 - t1
      s += d
      ss += d * d
      f += t0
      ff += t0 * t0
      g += t1
      gg += t1 * t1
      if (t0 > first.least) freeF++
      if (t1 > second.least) freeG++
    }
  return {
    difference: variance(s, ss),
    first: variance(f, ff),
    second: variance(g, gg),
    freeFirst: freeF / 10,
    freeSecond: freeG / 10,
  }
}
const SQRT5 = Math.sqrt(5)
const variance = (sum: number, squares: number): number => Math.max(0, squares / 10 - (sum / 10) ** 2)
