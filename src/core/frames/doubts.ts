import type { FrameFigures } from './figures.ts'
import { type ReadAs, type RowCounts, toMs, UNIT_NAMES, type Unit } from './rows.ts'

/** What makes figures of a log doubtful; each has its sentence in the words. Nothing is refused for it. */
export type Doubt =
  | { readonly kind: 'no frames' }
  /** Most steps are longer than any frame: then the unit is too large. */
  | { readonly kind: 'mostly pauses' }
  /** Games run at none such rate; in `unit` (absent: in none) it would be `unitFps`. */
  | {
      readonly kind: 'absurd rate'
      readonly averageFps: number
      readonly better?: { readonly unit: Unit; readonly averageFps: number } | undefined
    }
  | { readonly kind: 'many rows left out'; readonly share: number }

/** Outside of this nobody runs a game (common practice: displays show 24 to 540 pictures a second). */
export const RATE_FPS = { least: 5, most: 1000 } as const
const LEFT_OUT_SHARE = 0.02
const USUAL_FPS = 80

export function doubtsOf(
  { rows, figures }: { readonly rows: RowCounts; readonly figures?: FrameFigures | undefined },
  { unit }: { readonly as: ReadAs; readonly unit: Unit },
): Doubt[] {
  if (rows.left.pause > rows.rows / 2) return [{ kind: 'mostly pauses' }]
  if (figures === undefined) return [{ kind: 'no frames' }]
  const { averageFps } = figures
  const doubts: Doubt[] = []
  if (averageFps < RATE_FPS.least || averageFps > RATE_FPS.most)
    doubts.push({ kind: 'absurd rate', averageFps, better: betterUnit(averageFps, unit) })
  const { 'never shown': _, ...left } = rows.left
  const share = Object.values(left).reduce((sum, n) => sum + n, 0) / rows.rows
  if (share > LEFT_OUT_SHARE) doubts.push({ kind: 'many rows left out', share })
  return doubts
}

/** The unit in which the same figures are nearest to what games run at. */
function betterUnit(averageFps: number, unit: Unit) {
  return UNIT_NAMES.filter((other) => other !== unit)
    .map((other) => ({ unit: other, averageFps: (averageFps * toMs(1, unit)) / toMs(1, other) }))
    .filter((as) => as.averageFps >= RATE_FPS.least && as.averageFps <= RATE_FPS.most)
    .sort(
      (a, b) => Math.abs(Math.log(a.averageFps / USUAL_FPS)) - Math.abs(Math.log(b.averageFps / USUAL_FPS)),
    )[0]
}
