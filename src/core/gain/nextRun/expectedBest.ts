import { normalCdf, normalDensity } from '../normal.ts'

/** What an option is thought to be worth once a run is in: `worth + moves z`, z standard normal. */
export type Line = { readonly worth: number; readonly moves: number }

/**
 * Expected worth of the best option, chosen after z is known: `E max_i (a_i + b_i z)`, exact.
 *
 * The lines' upper envelope has corners `c_1 < c_2 < ...`; with the slopes rising along it,
 *
 *     E max = max_i a_i + sum_k (b_(k+1) - b_k) f(-|c_k|),   f(z) = z Phi(z) + phi(z)
 *
 * so the sum is what the knowledge is worth: never below 0, and 0 where no result would change the choice. The
 * knowledge gradient for correlated beliefs: Frazier, Powell & Dayanik, INFORMS Journal on Computing 21(4), 2009,
 * algorithm 1. `lines` is not empty; throws on an empty list. Cost: n log n.
 */
export function expectedBest(lines: readonly Line[]): number {
  const best = Math.max(...lines.map(({ worth }) => worth))
  if (lines.length === 0) throw new RangeError('nothing to choose from')
  return best + worthOfKnowing(lines)
}

function worthOfKnowing(lines: readonly Line[]): number {
  const { slopes, corners } = envelopeOf(lines)
  return corners.reduce(
    (sum, c, k) => sum + ((slopes[k + 1] as number) - (slopes[k] as number)) * f(-Math.abs(c)),
    0,
  )
}

// Far out the two terms cancel to rounding.
const f = (z: number): number => Math.max(0, z * normalCdf(z) + normalDensity(z))

/** Slopes along the upper envelope, rising, and where one line takes over from the one before. */
function envelopeOf(lines: readonly Line[]) {
  const sorted = [...lines].sort((p, q) => p.moves - q.moves || p.worth - q.worth)
  const kept: Line[] = []
  const corners: number[] = []
  for (const line of sorted) {
    // Of parallel lines the upper one counts; it comes last.
    if (kept.at(-1)?.moves === line.moves) drop(kept, corners)
    for (;;) {
      const last = kept.at(-1)
      if (last === undefined) break
      const c = (last.worth - line.worth) / (line.moves - last.moves)
      if (kept.length > 1 && c <= (corners.at(-1) as number)) {
        drop(kept, corners)
        continue
      }
      corners.push(c)
      break
    }
    kept.push(line)
  }
  return { slopes: kept.map(({ moves }) => moves), corners }
}

function drop(kept: Line[], corners: number[]): void {
  kept.pop()
  if (corners.length > 0) corners.pop()
}
