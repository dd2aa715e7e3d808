/** A way down: what a point costs, and the step that its slopes and curvature ask for. */
export type Slope<P> = {
  readonly cost: (point: P) => number
  /**
   * The step from a point, to be taken in part: share 1 is all of it; `undefined` where the curvature has no inverse.
   *
   * @param damping each figure on the curvature's diagonal counts that share more; 0 = as it is
   */
  readonly step: (point: P, damping: number) => ((share: number) => P) | undefined
}

export type Patience = {
  readonly steps: number
  /** Stops when the cost falls by less. */
  readonly fall: number
}

/** The step as it is, and halves of it; where none of them falls, whole steps that are damped more and more. */
const HALVINGS = 3
const LEAST_DAMPING = 1e-3
const MOST_DAMPING = 1e6

/**
 * Gauss-Newton, halved where the cost would rise (Nocedal & Wright, Numerical Optimization, 10.3), and damped on the
 * diagonal where halves do not help either: there the way is bent, and a shorter step along it is no better one (Marquardt,
 * J. SIAM 11(2), 1963). Costs that are no figure count as a rise.
 */
export function descend<P>({ cost, step }: Slope<P>, start: P, patience: Patience) {
  let point = start
  let now = cost(start)
  let steps = 0
  let damping = 0
  while (steps < patience.steps) {
    let next: { point: P; cost: number } | undefined
    for (; next === undefined && damping <= MOST_DAMPING; damping = Math.max(LEAST_DAMPING, 10 * damping)) {
      const along = step(point, damping)
      if (along === undefined) continue
      for (let halving = 0, share = 1; halving <= (damping === 0 ? HALVINGS : 0); halving++, share /= 2) {
        const tried = along(share)
        const value = cost(tried)
        if (!(value < now)) continue
        next = { point: tried, cost: value }
        break
      }
    }
    if (next === undefined) break
    // It has grown once too often above; a step that went well earns a tenth, and from the least on none at all.
    damping = damping <= 100 * LEAST_DAMPING ? 0 : damping / 100
    const fall = now - next.cost
    point = next.point
    now = next.cost
    steps++
    if (fall < patience.fall) break
  }
  return { point, cost: now, steps }
}
