/*
 * How many independent results as many are worth that hang together. Each way of hanging together is told by its own
 * clusters (jobs, titles) and by how much results of one cluster correlate.
 */

export type Clusters = { readonly sizes: readonly number[]; readonly correlation: number }

/**
 * So many independent results tell as much as n of them: `n / (1 + sum of rho (sum m^2 / n - 1))`, m being the sizes of the
 * clusters (design effect: Kish, Survey Sampling, 1965, 5.4; for unequal ones their weighted size). Clusters of two kinds
 * cross, as random effects of two kinds do: what they add to the variance of a mean adds up.
 */
export function countsAs(n: number, kinds: readonly Clusters[]): number {
  if (n === 0) return 0
  const more = ({ sizes, correlation }: Clusters): number =>
    correlation * (sizes.reduce((sum, m) => sum + m * m, 0) / n - 1)
  return n / kinds.reduce((sum, kind) => sum + more(kind), 1)
}

/**
 * Intraclass correlation of one-way random effects from the values of each class, kept within 0 and 1:
 * `(B - W) / (B + (m - 1) W)` with the mean squares between and within classes (ICC(1,1): Shrout & Fleiss, Psychological
 * Bulletin 86(2), 1979), and for classes of unequal size `m = (N - sum n^2 / N) / (k - 1)` (Donner, International
 * Statistical Review 54(1), 1986). 0 where it cannot be told: one class, none with two values, or all values alike.
 */
export function withinCorrelation(classes: readonly (readonly number[])[]): number {
  const all = classes.flat()
  const [n, k] = [all.length, classes.length]
  if (k < 2 || n <= k) return 0
  const grand = meanOf(all)
  const between = sum(classes.map((of) => of.length * (meanOf(of) - grand) ** 2)) / (k - 1)
  const within =
    sum(
      classes.flatMap((of) => {
        const mean = meanOf(of)
        return of.map((x) => (x - mean) ** 2)
      }),
    ) /
    (n - k)
  const size = (n - sum(classes.map((of) => of.length ** 2)) / n) / (k - 1)
  const whole = between + (size - 1) * within
  return whole > 0 ? Math.min(1, Math.max(0, (between - within) / whole)) : 0
}

const sum = (values: readonly number[]): number => values.reduce((total, x) => total + x, 0)
const meanOf = (values: readonly number[]): number => sum(values) / values.length
