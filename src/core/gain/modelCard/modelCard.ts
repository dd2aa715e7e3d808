import { type Coverage, HALF_WIDTH_SD } from '../intervals.ts'
import type { Fit } from '../model/fit.ts'
import { WIDEST_HALF } from '../model/grade.ts'
import { COVERAGES } from '../reliability/reliability.ts'
import { bandOf, type Range } from '../reliability/share.ts'
import { type LeftOut, leftOutOf } from './leftOut.ts'

/** How well cells are foretold by all others. */
export type Foretold = {
  readonly cells: number
  readonly runs: number
  /** Cells besides that would have no number without their own runs: what is left of them is too wide to be told. */
  readonly untold: number
  /** Mean of |off| in log frame time: about the share by which a frame rate is missed. 0 without cells. */
  readonly meanError: number
  /** Half of the 80 % interval, on average. */
  readonly halfWidth: number
  readonly levels: readonly {
    readonly coverage: Coverage
    readonly held: number
    readonly share: number
    /** Where the share lies in nineteen of twenty cases if intervals are as wide as they should be. */
    readonly honest: Range
  }[]
}

/** Why a title or part is a weak spot; `untold`: more cells have no number without their own runs than have one. */
export const WEAKNESSES = ['few runs', 'untold', 'wide', 'held too rarely'] as const
export type Weakness = (typeof WEAKNESSES)[number]

export type Spot = Foretold & { readonly id: string; readonly weaknesses: readonly Weakness[] }

/** What the gain model of a shop knows, and how well. */
export type ModelCard = {
  readonly model: string
  /** The instant ages count to; ISO 8601 UTC. */
  readonly fittedFor: string
  /** By what kept and missed promises multiply its intervals; 1 without. */
  readonly widthFactor: number
  readonly runs: number
  readonly cells: number
  readonly titles: number
  readonly settings: number
  readonly processors: number
  readonly cards: number
  /** First and last run; absent without one. */
  readonly from?: string | undefined
  readonly until?: string | undefined
  /** Cells that were left out one by one; fewer than `cells` in a large shop. */
  readonly leftOut: Foretold
  /** Every title and part, the weakest first. */
  readonly byTitle: readonly Spot[]
  readonly byProcessor: readonly Spot[]
  readonly byCard: readonly Spot[]
}

/** Fewer cells than this say nothing of a title or part alone. */
export const LEAST_CELLS = 12
/** An 80 % interval that reaches further than this to each side is wide: at 0.25 there is no number any more. */
export const WIDE_HALF = 0.15

export function modelCardOf(fit: Fit): ModelCard {
  const left = leftOutOf(fit)
  const runs = fit.cells.flatMap((cell) => cell.runs)
  const count = (idOf: (run: (typeof runs)[number]) => string): number => new Set(runs.map(idOf)).size
  const days = runs.map(({ at }) => at).sort()
  return {
    ...{
      model: fit.name,
      fittedFor: fit.at,
      widthFactor: fit.data.widthFactor ?? 1,
      runs: runs.length,
      cells: fit.cells.length,
    },
    titles: count(({ titleId }) => titleId),
    settings: count(({ settingId }) => settingId),
    processors: count(({ fitted }) => fitted.processorId),
    cards: count(({ fitted }) => fitted.cardId),
    ...(days.length > 0 && { from: days[0], until: days.at(-1) }),
    leftOut: foretoldOf(left),
    byTitle: spotsBy(left, ({ titleId }) => titleId),
    byProcessor: spotsBy(left, ({ processorId }) => processorId),
    byCard: spotsBy(left, ({ cardId }) => cardId),
  }
}

export function foretoldOf(all: readonly LeftOut[]): Foretold {
  const left = all.filter(({ sd }) => HALF_WIDTH_SD[80] * sd <= WIDEST_HALF)
  const n = left.length
  const mean = (of: (one: LeftOut) => number): number =>
    n === 0 ? 0 : left.reduce((sum, one) => sum + of(one), 0) / n
  return {
    cells: n,
    runs: left.reduce((sum, { runs }) => sum + runs, 0),
    untold: all.length - n,
    meanError: mean(({ off }) => Math.abs(off)),
    halfWidth: mean(({ sd }) => HALF_WIDTH_SD[80] * sd),
    levels: COVERAGES.map((coverage) => {
      const held = left.filter(({ off, sd }) => Math.abs(off) <= HALF_WIDTH_SD[coverage] * sd).length
      return { coverage, held, share: n === 0 ? 0 : held / n, honest: bandOf(coverage / 100, n) }
    }),
  }
}

function spotsBy(left: readonly LeftOut[], idOf: (one: LeftOut) => string): Spot[] {
  const groups = new Map<string, LeftOut[]>()
  for (const one of left) groups.set(idOf(one), [...(groups.get(idOf(one)) ?? []), one])
  return [...groups]
    .map(([id, own]): Spot => {
      const foretold = foretoldOf(own)
      return { id, ...foretold, weaknesses: weaknessesOf(foretold) }
    })
    .sort(
      (a, b) =>
        b.weaknesses.length - a.weaknesses.length || b.halfWidth - a.halfWidth || (a.id < b.id ? -1 : 1),
    )
}

function weaknessesOf({ cells, untold, halfWidth, levels }: Foretold): Weakness[] {
  const four = levels.find(({ coverage }) => coverage === 80)
  return [
    ...(cells + untold < LEAST_CELLS ? (['few runs'] as const) : []),
    ...(untold > cells ? (['untold'] as const) : []),
    ...(halfWidth > WIDE_HALF ? (['wide'] as const) : []),
    ...(cells >= LEAST_CELLS && four !== undefined && four.share < four.honest.low
      ? (['held too rarely'] as const)
      : []),
  ]
}
