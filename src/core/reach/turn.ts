import type { Minor } from '../money.ts'
import { type Curve, needFor } from './curve.ts'

/** Where the platform that costs more today becomes the cheaper machine. */
export type Turn = {
  /** It is from this level on. */
  readonly fps: number
  /** What the dearer one needs for it then, on top of its first cost. */
  readonly dearerMinor: Minor
  /** Absent: the cheaper one does not get there at all. */
  readonly cheaperMinor?: Minor | undefined
}

/**
 * Over every level that one of two curves reaches: first cost and further spend together, and the lowest level from which on the
 * dearer one comes to less at every level. Undefined where it does not at the highest. `moreMinor` is what it costs more today.
 */
export function turnOf(
  dearer: Pick<Curve, 'points'>,
  cheaper: Pick<Curve, 'points'>,
  moreMinor: Minor,
): Turn | undefined {
  const levels = [...dearer.points, ...cheaper.points].map(({ fps }) => fps).sort((a, b) => b - a)
  let turn: Turn | undefined
  for (const fps of levels) {
    const dearerMinor = needFor(dearer, fps)
    const cheaperMinor = needFor(cheaper, fps)
    if (dearerMinor === undefined) return turn
    if (cheaperMinor !== undefined && dearerMinor + moreMinor >= cheaperMinor) return turn
    turn = { fps, dearerMinor, ...(cheaperMinor !== undefined && { cheaperMinor }) }
  }
  return turn
}
