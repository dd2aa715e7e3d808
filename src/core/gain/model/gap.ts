import type { Basis } from './basis.ts'
import { crossOf, type EndIn, withFigure } from './ends.ts'
import { jointSpread } from './points.ts'

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
  const own = (end: EndIn, other: boolean): number => end.own + (other ? end.elsewhere : 0)
  const ownFirst = spread.freeFirst * own(first, elsewhere.first)
  const ownSecond = spread.freeSecond * own(second, elsewhere.second)
  return {
    mean: first.m - second.m,
    variance: spread.difference + ownFirst + ownSecond,
    firstVariance: spread.first + ownFirst,
    secondVariance: spread.second + ownSecond,
  }
}
