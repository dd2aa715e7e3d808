import type { Minor } from '../../money.ts'
import { WIDEST_HALF } from '../model/grade.ts'
import type { Predictor } from '../model/predict.ts'
import { FOUR_OF_FIVE_SD } from '../noise.ts'
import { normalCdf } from '../normal.ts'
import { type Fitted, fittedKey } from '../run.ts'
import { isSure } from '../useful.ts'
import type { CellAsk, Joint, Place } from './joint.ts'

/** A question that waits: what could be done, and in which titles it counts. */
export type OpenQuestion = {
  readonly id: string
  readonly machineTag: string
  readonly before: Fitted
  readonly titles: readonly {
    readonly titleId: string
    readonly settingId: string
    readonly weight: number
  }[]
  /** What the display shows at most; absent = nothing is cut. */
  readonly refreshHz?: number | undefined
  readonly options: readonly { readonly id: string; readonly after: Fitted; readonly netMinor: Minor }[]
}

/** One title of one option as the model tells it. */
export type OptionTitle = {
  readonly weight: number
  readonly before: Place
  readonly after: Place
  /** What changes between the two. */
  readonly newParts: Partial<Pick<Fitted, 'processorId' | 'cardId'>>
  /** Variance of the log gain along the slopes, which correlations are told by. */
  readonly variance: number
  /** Log gain as the display shows it, and its standard deviation. */
  readonly gain: number
  readonly sd: number
  /** Share of results that the display would show growing: what it hides, no run makes worth anything. */
  readonly shown: number
  /** It has a number that counts. */
  readonly isSure: boolean
  /** Runs of one end disagree; that end run again settles it. */
  readonly disagrees: boolean
  /** A part that no run and no figure tells of. */
  readonly isStrange: boolean
}

export type OpenOption = {
  readonly id: string
  readonly titles: readonly OptionTitle[]
  /** Divisor of its percent: its price in hundreds of major units, or of the cheapest where it costs nothing. */
  readonly priceUnit: number
}

/** Minor units that a percent is told for; the scale cancels in everything that is told. */
const PER_MINOR = 10_000

/** Cells that a question hangs on. */
export const cellsOf = ({ titles, before, options }: OpenQuestion): CellAsk[] =>
  titles.flatMap(({ titleId, settingId }) =>
    [before, ...options.map(({ after }) => after)].map((fitted) => ({ titleId, settingId, fitted })),
  )

/** What the model says of every option in every title. */
export function optionsOf(question: OpenQuestion, model: Predictor, joint: Joint): OpenOption[] {
  const { before, machineTag, refreshHz } = question
  const cap = refreshHz !== undefined && refreshHz > 0 ? Math.log(refreshHz) : Number.POSITIVE_INFINITY
  const prices = question.options.flatMap(({ netMinor }) => (netMinor > 0 ? [netMinor] : []))
  const least = prices.length === 0 ? PER_MINOR : Math.min(...prices)
  const total = question.titles.reduce((sum, { weight }) => sum + weight, 0)
  return question.options
    .filter(({ after }) => fittedKey(after) !== fittedKey(before))
    .map(({ id, after, netMinor }) => ({
      id,
      priceUnit: (netMinor > 0 ? netMinor : least) / PER_MINOR,
      titles: question.titles.map(({ titleId, settingId, weight }): OptionTitle => {
        const ask = { titleId, settingId, machineTag, before, after }
        const from = joint.placeOf({ titleId, settingId, fitted: before })
        const to = joint.placeOf({ titleId, settingId, fitted: after })
        const variance = varianceBetween(joint, from, to)
        const told = model.predict(ask)
        // Of a title that nobody ran nothing is gained on average, as far as anybody knows.
        const between = model.difference(ask) ?? { logGain: 0, sd: Math.sqrt(variance) }
        const numbered = told.grade !== 'no number'
        const today = told.before === undefined ? undefined : Math.log(told.before.averageFps)
        const { logGain, sd } = between
        const seen = (gain: number): number =>
          today === undefined ? gain : Math.min(cap, today + gain) - Math.min(cap, today)
        const sdAfter = numbered ? (told.sdAfter ?? sd) : sd
        return {
          ...{ weight: weight / total, before: from, after: to, gain: seen(logGain), sd, variance },
          newParts: {
            ...(after.processorId !== before.processorId && { processorId: after.processorId }),
            ...(after.cardId !== before.cardId && { cardId: after.cardId }),
          },
          shown:
            today === undefined || cap === Number.POSITIVE_INFINITY
              ? 1
              : normalCdf((cap - today - logGain) / Math.max(1e-9, sdAfter)),
          isSure: isSure(told),
          disagrees: numbered && told.disagrees,
          isStrange: !numbered && told.because === 'unknown part',
        }
      }),
    }))
}

const varianceBetween = ({ covariance }: Joint, from: Place, to: Place): number =>
  Math.max(0, covariance(from, from) + covariance(to, to) - 2 * covariance(from, to))

/** Worth of an option, percent for a unit of money, over the titles that count; `undefined`: none does. */
export function worthOf(
  { titles, priceUnit }: OpenOption,
  counts: (title: OptionTitle, i: number) => boolean,
  moves: (title: OptionTitle, i: number) => number,
) {
  const counted = titles.flatMap((title, i) => (counts(title, i) ? [{ title, move: moves(title, i) }] : []))
  const weight = counted.reduce((sum, { title }) => sum + title.weight, 0)
  if (weight === 0) return undefined
  const log = counted.reduce((sum, { title }) => sum + (title.weight / weight) * title.gain, 0)
  const slope = counted.reduce(
    (sum, { title, move }) => sum + (title.weight / weight) * title.shown * move,
    0,
  )
  return { worth: (100 * Math.expm1(log)) / priceUnit, moves: (100 * Math.exp(log) * slope) / priceUnit }
}

/**
 * How far a run moves a gain: `sd rho`, rho the correlation of the gain with the reading. What of the gain's spread is
 * left is `sd sqrt(1 - rho^2)`.
 */
export function correlationWith(
  { covariance }: Joint,
  { before, after, variance }: OptionTitle,
  run: Place,
  reading: number,
): number {
  if (!(variance > 0) || !(reading > 0)) return 0
  const rho = (covariance(before, run) - covariance(after, run)) / Math.sqrt(variance * reading)
  return Math.max(-1, Math.min(1, rho))
}

/** Whether the title has a number that counts once the run is in. `fitted` is what it is run with. */
export function countsAfter(title: OptionTitle, rho: number, run: Place, fitted: Fitted): boolean {
  if (title.isSure) return true
  if (title.disagrees) return run === title.before || run === title.after
  if (title.isStrange && !bringsParts(title, fitted)) return false
  return FOUR_OF_FIVE_SD * title.sd * Math.sqrt(1 - rho * rho) <= WIDEST_HALF
}

/** The run has the parts that change, which nobody has run yet. */
const bringsParts = ({ newParts }: OptionTitle, fitted: Fitted): boolean =>
  (newParts.cardId ?? fitted.cardId) === fitted.cardId &&
  (newParts.processorId ?? fitted.processorId) === fitted.processorId
