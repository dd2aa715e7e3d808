import type { Grade } from '../gain.ts'
import type { Basis } from './basis.ts'
import type { Catalog } from './catalog.ts'
import type { Makings } from './ends.ts'
import type { Source } from './predict.ts'
import type { Prepared } from './prepared.ts'

/** Half width of the 80 % interval, in log, above which a figure is of no use: the mean error there was 0.23 to 0.31. */
export const WIDEST_HALF = 0.25

const DAY_MS = 86_400_000

/** Measured: both cells measured, neither flagged, in one version of the title and within the shop's window. */
export function gradeOf({ windowDays }: Source, from: Prepared, to: Prepared): Exclude<Grade, 'no number'> {
  const good = [from, to].filter(({ cell, flagged }) => cell !== undefined && !flagged)
  if (good.length === 0) return 'estimated'
  if (good.length === 1) return 'half measured'
  const [first, second] = [from.cell, to.cell]
  const last = (end: Prepared) => Date.parse(end.cell?.runs.at(-1)?.at ?? '')
  const apart = Math.abs(last(from) - last(to)) / DAY_MS
  return first?.version === second?.version && apart <= windowDays ? 'measured' : 'half measured'
}

/** A part that changes has neither a run, in whatever title, nor a nominal figure that compares with another's. */
export const isUnknown = (from: Prepared, to: Prepared): boolean =>
  (from.makings.processor !== to.makings.processor && !(from.knows.processor && to.knows.processor)) ||
  (from.makings.card !== to.makings.card && !(from.knows.card && to.knows.card))

/** What is known of an end's parts. Figures of parts go by `u ID` and `v ID`, of variants by `u [ID, ...]`. */
export function knowsOf({ names }: Basis, { nominal }: Catalog, { fitted }: Makings) {
  const known = (letter: 'u' | 'v', id: string): boolean =>
    nominal.has(id) ||
    names.some((name) => name === `${letter} ${id}` || name.startsWith(`${letter} [${JSON.stringify(id)},`))
  return { processor: known('u', fitted.processorId), card: known('v', fitted.cardId) }
}
