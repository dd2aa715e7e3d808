/** A way down: what a point costs, and the whole step that its slopes and curvature ask for. */
export type Slope<P> = {
  readonly cost: (point: P) => number
  /** The step from a point, to be taken in part: share 1 is all of it. */
  readonly step: (point: P) => (share: number) => P
}

export type Patience = {
  readonly steps: number
  /** Stops when the cost falls by less. */
  readonly fall: number
}
const HALVINGS = 12

/**
 * Damped Gauss-Newton: whole steps, halved up to twelve times where the cost would rise (Nocedal & Wright, Numerical
 * Optimization, 10.3). Costs that are no figure count as a rise.
 */
export function descend<P>({ cost, step }: Slope<P>, start: P, patience: Patience) {
  let point = start
  let now = cost(start)
  let steps = 0
  while (steps < patience.steps) {
    const along = step(point)
    let next: { point: P; cost: number } | undefined
    for (let halving = 0, share = 1; halving <= HALVINGS; halving++, share /= 2) {
      const tried = along(share)
      const value = cost(tried)
      if (value <= now) {
        next = { point: tried, cost: value }
        break
      }
    }
    if (next === undefined) break
    const fall = now - next.cost
    point = next.point
    now = next.cost
    steps++
    if (fall < patience.fall) break
  }
  return { point, cost: now, steps }
}
