import type { Value } from '../core/fit/finding.ts'
import type { FigureName, Understood } from '../core/naming/understood.ts'
import { NAMING_FRAMES, sayFigureOf } from './en/naming.ts'
import type { Figures } from './figures.ts'

/** A name with more than this has the rest left out: the line is a hint where to look. */
const UNREAD_SHOWN = 4

/**
 * What was read from a typed name, one line for each piece of it:
 * `Read from "i5-10400F": socket LGA1200, 10th generation, class i5, no graphics of its own.`
 * What looks like a figure and was not read is named behind them. A name that gave nothing has one line that says so
 * and what follows from it.
 */
export function sayRead(
  read: {
    readonly name: string
    readonly understood: readonly Understood[]
    readonly unread?: readonly string[] | undefined
  },
  figures: Figures,
): string[] {
  if (read.understood.length === 0) return [NAMING_FRAMES.nothing(read.name)]
  const pieces = [...new Set(read.understood.map((u) => u.from))]
  const lines = pieces.map((from) =>
    NAMING_FRAMES.read(
      from,
      read.understood.filter((u) => u.from === from).map((u) => sayFigure(u.field, u.value, figures)),
    ),
  )
  const unread = (read.unread ?? []).slice(0, UNREAD_SHOWN)
  return unread.length === 0 ? lines : [...lines, NAMING_FRAMES.unread(unread)]
}

const sayFigure = (field: FigureName, value: Value, figures: Figures): string =>
  sayFigureOf(field, value, figures.named(field, value))
