/*
 * Shares out of so many, and what chance does to them: the score interval of Wilson, JASA 22(158), 1927, eq. 7, and the
 * same test turned round. `n` need not be whole: promises that hang together count as fewer.
 */

/** Two-sided 95 % of the normal distribution (NIST/SEMATECH e-Handbook 1.3.6.7.1). */
export const Z_95 = 1.959963984540054

export type Range = { readonly low: number; readonly high: number }

/** Where the true share may lie after `share` of `n` were seen; all of it where n is 0. */
export function wilson(share: number, n: number, z = Z_95): Range {
  if (!(n > 0)) return { low: 0, high: 1 }
  const z2 = z * z
  const middle = (share + z2 / (2 * n)) / (1 + z2 / n)
  const half = (z / (1 + z2 / n)) * Math.sqrt((share * (1 - share)) / n + z2 / (4 * n * n))
  return { low: Math.max(0, middle - half), high: Math.min(1, middle + half) }
}

/** Where the share seen of `n` lies, nineteen times of twenty, if `true` is so: `p -+ z sqrt(p (1 - p) / n)`. */
export function bandOf(trueShare: number, n: number, z = Z_95): Range {
  if (!(n > 0)) return { low: 0, high: 1 }
  const half = z * Math.sqrt((trueShare * (1 - trueShare)) / n)
  return { low: Math.max(0, trueShare - half), high: Math.min(1, trueShare + half) }
}

export const isIn = (x: number, { low, high }: Range): boolean => x >= low && x <= high
