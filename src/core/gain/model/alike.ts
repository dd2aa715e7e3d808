import type { Basis } from './basis.ts'
import { crossOf, type EndSides, type Side } from './ends.ts'
import { firstShare } from './smax.ts'
import type { Heard } from './view.ts'

/*
 * What the formula gets wrong in a cell is mostly the processor's, card's and title's, and little of it the memory's or the
 * link's: cells that differ in these alone share most of it. So a run with other memory tells of this end too, and what lies
 * between both is known better than between two strangers.
 *
 * Of the variance tau^2 of a cell's deviation e the share rho is common to the group (u), the rest is its own (v):
 *
 *     r_j = y_j - T_j = u + v_j + noise_j,   D_j = (1 - rho) tau^2 + noise_j,   W = sum 1/D_j,   g = rho tau^2 / (1 + rho tau^2 W)
 *     u^ = g sum r_j / D_j,   var u = g
 *     e^ = u^ for a cell without runs,   (1 - q) u^ + q r for one with,   q = (1 - rho) tau^2 / D
 */

/** A cell of the same processor and card that was run: what it said, and its sides. */
export type Relative = { readonly heard: Heard; readonly sides: EndSides; readonly isSelf: boolean }

export type Deviation = {
  /** The end's blend: `(1 - k) T + k y`. */
  readonly k: number
  readonly y: number
  /** Variance of the deviation that is left, and the part of it that is common to the group. */
  readonly own: number
  readonly common: number
  /** What the blend adds because relatives differ in memory and link: a sum of figures with mean 0; see `y`. */
  readonly line: Side | undefined
}

/** Variance of what a cell's runs say around the cell: `sigma^2 / (n min(1, w))` and what age adds. */
export const noiseOf = ({ sigma }: Pick<Basis, 'sigma'>, { n, weight, aged }: Heard): number =>
  (sigma * sigma) / (n * Math.max(1e-9, Math.min(1, weight))) + aged

export function deviationOf(basis: Basis, self: EndSides, relatives: readonly Relative[]): Deviation {
  const tau2 = basis.tau * basis.tau
  const [shared, apart] = [basis.alike * tau2, (1 - basis.alike) * tau2]
  const spreads = relatives.map(({ heard }) => apart + noiseOf(basis, heard))
  const g = shared / (1 + shared * spreads.reduce((sum, d) => sum + 1 / d, 0))
  const at = relatives.findIndex(({ isSelf }) => isSelf)
  const q = at < 0 ? 0 : apart / (spreads[at] as number)
  const shares = spreads.map((d, j) => ((1 - q) * g) / d + (j === at ? q : 0))
  const k = shares.reduce((sum, c) => sum + c, 0)
  const inA = basis.form === 'sum' ? 1 : firstShare(self.a.mean, self.b.mean, Math.exp(self.logp.mean))
  const inB = basis.form === 'sum' ? 1 : 1 - inA
  let said = 0
  const line: [number, number][] = []
  relatives.forEach(({ heard, sides, isSelf }, j) => {
    const share = shares[j] as number
    said += share * heard.y
    if (isSelf) return
    said -= share * (inA * (sides.a.mean - self.a.mean) + inB * (sides.b.mean - self.b.mean))
    add(line, sides.a, -share * inA)
    add(line, self.a, share * inA)
    add(line, sides.b, -share * inB)
    add(line, self.b, share * inB)
  })
  return {
    k,
    y: k > 0 ? said / k : 0,
    own: g * (1 - q) ** 2 + apart * (1 - q),
    common: g * (1 - q) ** 2,
    line: sideOf(basis, line),
  }
}

function add(line: [number, number][], { at, by }: Side, times: number): void {
  at.forEach((figure, e) => {
    line.push([figure, times * (by[e] as number)])
  })
}

/** Figures that cancel (the parts themselves) drop out: what is left is memory and link. */
function sideOf(basis: Basis, line: readonly (readonly [number, number])[]): Side | undefined {
  const sums = new Map<number, number>()
  for (const [figure, by] of line) sums.set(figure, (sums.get(figure) ?? 0) + by)
  const left = [...sums].filter(([, by]) => Math.abs(by) > 1e-12).sort((a, b) => a[0] - b[0])
  if (left.length === 0) return undefined
  const side: Side = {
    at: Int32Array.from(left, ([figure]) => figure),
    by: Float64Array.from(left, ([, by]) => by),
    ...{ mean: 0, variance: 0, own: 0, who: '' },
  }
  return { ...side, variance: crossOf(basis, side, side) }
}
