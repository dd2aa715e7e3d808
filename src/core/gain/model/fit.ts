import { type Catalog, catalogOf } from './catalog.ts'
import { type Cell, cellsFor } from './cells.ts'
import type { GainData } from './data.ts'
import type { Point } from './iterate.ts'
import { entriesOnce, type Form, type Problem, problemOf, type Reads } from './layout.ts'
import { LOW_PRIORS, RATIO_PRIORS } from './lowPriors.ts'
import { MODEL_NAME } from './name.ts'
import { PRIORS, type Priors } from './priors.ts'
import { type Solved, solveProblem } from './solved.ts'
import { pointFrom, pointLike, type Start, type Which } from './start.ts'

/** A fitted model: plain data and typed arrays, so that a worker can post it. What is in it is the model's affair. */
export type Fit = {
  readonly name: string
  /** The instant it was fitted for; ISO 8601 UTC. */
  readonly at: string
  /** Runs that it heard. */
  readonly runs: number
  /** Runs added since the last full fit. */
  readonly added: number
  readonly data: GainData
  readonly catalog: Catalog
  readonly cells: readonly Cell[]
  readonly average: Solved
  /** Of the 1 % low: the same model on its own frame times, and the log of low over average frame time as a sum. */
  readonly low: Solved
  readonly ratio: Solved
}

/** Which reading of a cell each of the three problems hears. */
export const READS = {
  average: (cell: Cell) => cell.average,
  low: (cell: Cell) => cell.low,
  ratio: ({ average, low }: Cell) =>
    low === undefined || average.capped
      ? undefined
      : { y: low.y - average.y, n: low.n, capped: false, logs: [] },
} as const satisfies Record<Which, Reads>

const FORMS = { average: 'smax', low: 'smax', ratio: 'sum' } as const satisfies Record<Which, Form>

/**
 * Fits all runs. The order of runs, titles, settings and parts does not matter; runs whose setting is not among the
 * settings are left out. Seconds on a large shop: call it in a worker.
 *
 * @param start of an earlier fit, so that fewer steps are needed
 */
export const fitModel = (data: GainData, start?: Start): Fit => fitWith(data, PRIORS, start)

/** `fitModel` from other priors: for tests. */
export function fitWith(data: GainData, priors: Priors, start?: Start): Fit {
  const cells = cellsFor(data)
  const catalog = catalogOf(data, cells)
  const entries = entriesOnce(catalog)
  const problem = (which: Which, from: Priors): Problem =>
    problemOf(cells, catalog, from, FORMS[which], READS[which], data.at, data.policy.runWindowDays, entries)
  const solved = (which: Which, from: Priors, other?: (problem: Problem) => Point): Solved => {
    const one = problem(which, from)
    return solveProblem(one, start ? pointFrom(start, which, one) : other?.(one))
  }
  const average = solved('average', priors)
  return {
    name: MODEL_NAME,
    at: data.at,
    runs: cells.reduce((sum, { runs }) => sum + runs.length, 0),
    added: 0,
    data,
    catalog,
    cells,
    average,
    low: solved('low', LOW_PRIORS(priors), (one) => pointLike(average, one)),
    ratio: solved('ratio', RATIO_PRIORS(priors)),
  }
}
