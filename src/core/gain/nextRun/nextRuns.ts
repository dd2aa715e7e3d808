import { byText } from '../cellOf.ts'
import type { Fit } from '../model/fit.ts'
import { predictorOf } from '../model/predict.ts'
import { expectedBest } from './expectedBest.ts'
import { averageViews, type CellAsk, cellAskKey, type Joint, jointOf } from './joint.ts'
import {
  cellsOf,
  correlationWith,
  countsAfter,
  type OpenOption,
  type OpenQuestion,
  optionsOf,
  worthOf,
} from './question.ts'

/** A run that the shop could make. */
export type PossibleRun = CellAsk & {
  /** Absent: on the test bench. */
  readonly machineTag?: string | undefined
  /** Parts of the shelf that are put in for it. */
  readonly partIds: readonly string[]
  /** Work before the first frame, as the shop times it; 0 where nothing is changed. Absent: not timed. */
  readonly minutes?: number | undefined
}

/** What a run would do for one question. */
export type Helped = {
  readonly questionId: string
  /**
   * Share of the best option's gain per dollar that is lost, on average, by choosing without the run: 0 to 1. 1 where
   * nothing has a number yet and the run gives one.
   */
  readonly share: number
  /** Options that have no number now and would have one. */
  readonly numbers: readonly string[]
}

export type NextRun = PossibleRun & {
  /** Questions that gain by it, the one that gains most first. */
  readonly helps: readonly Helped[]
  /** Sum of the shares. */
  readonly removed: number
}

/** Warm-up, the way through the scene and noting it; common practice, from memory. */
export const RUN_MINUTES = 10
/** A share below this is none: no page tells it. */
const LEAST_SHARE = 1e-4

/**
 * Runs by how much regret they would take off the open questions, for each minute of the bench, the best first. A
 * question's options are compared as they are ranked, by useful percent for money, with "nothing" among them. What a
 * run is worth to it is the knowledge gradient (expectedBest.ts): expected worth of the best option chosen with the
 * run, less that of the best chosen without it. Runs that help nobody are left out.
 *
 * Closed form throughout: along the slopes at the fit a reading with variance `var eta + V` moves a gain by
 * `cov(g, eta) / sqrt(var eta + V)`. The order of questions and runs does not matter.
 * Cost: runs x options x titles, after one look at the covariance of their cells.
 */
export function nextRuns(
  fit: Fit,
  questions: readonly OpenQuestion[],
  possible: readonly PossibleRun[],
): NextRun[] {
  // Without a run there is nothing that one more could be held against.
  if (fit.cells.length === 0) return []
  const viewOf = averageViews(fit)
  const { catalog, at } = fit
  const model = predictorOf({ viewOf, catalog, at, windowDays: fit.data.policy.runWindowDays })
  const known = possible.filter(({ settingId }) => fit.catalog.settings.has(settingId))
  const asked = questions.map((question) => ({
    ...question,
    titles: question.titles.filter((t) => t.weight > 0 && fit.catalog.settings.has(t.settingId)),
  }))
  const joint = jointOf(fit, viewOf, [...asked.flatMap(cellsOf), ...known])
  const open = asked
    .map((question) => ({ question, options: optionsOf(question, model, joint) }))
    .sort((p, q) => byText(p.question.id, q.question.id))
  return known
    .map((run) => {
      const helps = open
        .map(({ question, options }) => helpOf(question, options, run, joint))
        .filter(({ share }) => share > LEAST_SHARE)
        .sort((p, q) => q.share - p.share || byText(p.questionId, q.questionId))
      return { ...run, helps, removed: helps.reduce((sum, { share }) => sum + share, 0) }
    })
    .filter(({ helps }) => helps.length > 0)
    .sort((p, q) => perMinute(q) - perMinute(p) || byText(runKey(p), runKey(q)))
}

const perMinute = ({ removed, minutes = 0 }: NextRun): number => removed / (RUN_MINUTES + minutes)
const runKey = (run: PossibleRun): string =>
  JSON.stringify([cellAskKey(run), run.machineTag ?? null, run.partIds])

/** What one percent is worth at the lowest price: where nobody can win as much, little is lost, whatever its share. */
const leastWorth = (options: readonly OpenOption[]): number =>
  1 / Math.min(...options.map(({ priceUnit }) => priceUnit), Number.MAX_VALUE)

const NOTHING = { worth: 0, moves: 0 }

function helpOf(
  question: OpenQuestion,
  options: readonly OpenOption[],
  run: PossibleRun,
  joint: Joint,
): Helped {
  const noise = run.machineTag === question.machineTag ? joint.noise.same : joint.noise.other
  const place = joint.placeOf(run)
  const reading = joint.covariance(place, place) + noise
  const rhos = options.map(({ titles }) =>
    titles.map((title) => correlationWith(joint, title, place, reading)),
  )
  const now = options.flatMap(
    (option) =>
      worthOf(
        option,
        (t) => t.isSure,
        () => 0,
      ) ?? [],
  )
  const after = options.flatMap((option, o) => {
    const rho = (i: number): number => rhos[o]?.[i] ?? 0
    return (
      worthOf(
        option,
        (title, i) => countsAfter(title, rho(i), place, run.fitted),
        (title, i) => title.sd * rho(i),
      ) ?? []
    )
  })
  const without = Math.max(0, ...now.map(({ worth }) => worth))
  const withRun = expectedBest([NOTHING, ...after])
  const numbers = options.flatMap(({ id, titles }, o) =>
    titles.some((t) => t.isSure) ||
    !titles.some((t, i) => countsAfter(t, rhos[o]?.[i] ?? 0, place, run.fitted))
      ? []
      : [id],
  )
  return {
    questionId: question.id,
    share: Math.max(0, withRun - without) / Math.max(withRun, leastWorth(options)),
    numbers,
  }
}
