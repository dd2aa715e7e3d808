import type { Grade } from '../gain.ts'
import type { Catalog } from './catalog.ts'
import type { Source } from './predict.ts'
import type { Prepared } from './prepared.ts'
import type { View } from './view.ts'

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
export function isUnknown(catalog: Catalog, view: View, from: Prepared, to: Prepared): boolean {
  const { names } = view.average
  const known = (letter: 'u' | 'v', id: string): boolean =>
    catalog.nominal.has(id) || names.some((name) => isOf(name, letter, id))
  const [f, t] = [from.makings, to.makings]
  const changes = (a: string, b: string): boolean => a !== b
  return (
    (changes(f.processor, t.processor) &&
      !(known('u', f.fitted.processorId) && known('u', t.fitted.processorId))) ||
    (changes(f.card, t.card) && !(known('v', f.fitted.cardId) && known('v', t.fitted.cardId)))
  )
}

/** `u ID`, or `u [ID, ...]` of a variant. */
const isOf = (name: string, letter: 'u' | 'v', id: string): boolean =>
  name === `${letter} ${id}` || name.startsWith(`${letter} [${JSON.stringify(id)},`)
