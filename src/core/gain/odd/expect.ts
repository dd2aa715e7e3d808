import { entriesOf, kindAtom, type Placed } from '../model/atoms.ts'
import { type Sum, sumsAt } from '../model/basis.ts'
import { cardName, processorName } from '../model/catalog.ts'
import { blockKey } from '../model/cells.ts'
import type { Fit } from '../model/fit.ts'
import type { Block } from '../model/layout.ts'
import { type SharedPosterior, sharedPosterior } from '../model/posterior.ts'
import { rowVariance } from '../model/rows.ts'
import { firstShare, sharpnessSlope, smax } from '../model/smax.ts'
import type { Fitted } from '../run.ts'

/** Where a run stands in a fit: parts, title and picture. */
export type Place = Placed

/** What the model says of a place: log times of both sides, sharpness, log frame time, and what is not known of it. */
export type Said = {
  readonly a: number
  readonly b: number
  readonly p: number
  readonly t: number
  readonly variance: number
}

/** A row of the fit that is to be unheard: `place` is where it stands. */
export type Unheard = { readonly block: number; readonly row: number }

export type Expecting = {
  readonly fit: Fit
  /** Number of the title's block; -1 where nobody ran it. */
  readonly blockOf: (place: Pick<Place, 'titleId' | 'settingId'>) => number
  /**
   * What is expected at places of one title. With `unheard` the first place is that row's own, and all are told as if its
   * reading had not been heard: for a linear model with residual r, weight W and variance v of the row's own mean,
   *
   *     mean_k - cov_k W r / (1 - v W),   variance_k + cov_k^2 W / (1 - v W)
   */
  readonly at: (block: number, places: readonly Place[], unheard?: Unheard) => readonly Said[]
}

/** A row can hold the fit alone; what is known without it is then next to nothing, and no division by zero. */
const HOLDS_MOST = 0.98

export function expecting(fit: Fit): Expecting {
  const { average, catalog } = fit
  const { problem, scales, state, sums } = average
  let shared: SharedPosterior | undefined
  const posterior = (): SharedPosterior => {
    shared ??= sharedPosterior(problem, scales, sums)
    return shared
  }
  const numbers = new Map(problem.blocks.map(({ key }, b) => [key, b]))
  const known = new Set(problem.shared.keys)

  /** Parts that no run names bring their whole spread: the sums know nothing of it. */
  const strangers = (fitted: Fitted): { readonly a: number; readonly b: number } => {
    const { parts } = problem.priors
    const own = (key: string, id: string, sd: number, nominalSd: number) =>
      known.has(`${key} ${id}`) ? 0 : (catalog.nominal.has(id) ? nominalSd : sd) ** 2
    const variant = (key: string, id: string, name: string, sd: number) =>
      name === id || known.has(`${key} ${name}`) ? 0 : sd ** 2
    const { processorId, cardId } = fitted
    return {
      a:
        own('a', processorId, parts.processor, scales.processorNominal) +
        variant('a+', processorId, processorName(catalog, fitted), parts.processorVariant),
      b:
        own('b', cardId, parts.card, scales.cardNominal) +
        variant('b+', cardId, cardName(fitted), parts.cardVariant),
    }
  }

  const at = (block: number, places: readonly Place[], unheard?: Unheard): readonly Said[] => {
    const sides: Sum[] = places.flatMap((place) => {
      const entries = entriesOf(place, catalog)
      const of = (s: 'a' | 'b'): Sum => entries.flatMap((e) => (e[s] === 0 ? [] : [[e.atom, e[s]] as const]))
      return [of('a'), of('b')]
    })
    const { mean, covariance } = sumsAt(average, block, posterior(), [...sides, [[kindAtom('logp'), 1]]])
    const n = mean.length
    const last = n - 1
    const p = Math.exp(mean[last] as number)
    const slopes = places.map((_, k) => {
      const [a, b] = [mean[2 * k] as number, mean[2 * k + 1] as number]
      const inA = firstShare(a, b, p)
      return [
        [2 * k, inA],
        [2 * k + 1, 1 - inA],
        [last, sharpnessSlope(a, b, p)],
      ] as const
    })
    const cov = (
      one: readonly (readonly [number, number])[],
      other: readonly (readonly [number, number])[],
    ) =>
      one.reduce(
        (sum, [i, x]) => sum + other.reduce((s, [j, y]) => s + x * y * (covariance[i * n + j] as number), 0),
        0,
      )
    const own = slopes[0] ?? []
    const lift =
      unheard === undefined || own.length === 0 ? undefined : liftOf(cov(own, own), mean, p, unheard)
    const shift = (of: readonly (readonly [number, number])[]) => (lift ? cov(of, own) * lift.by : 0)
    return places.map((place, k) => {
      const slope = slopes[k] ?? []
      const [a, b] = [
        (mean[2 * k] as number) - shift([[2 * k, 1]]),
        (mean[2 * k + 1] as number) - shift([[2 * k + 1, 1]]),
      ]
      const stranger = strangers(place.fitted)
      const inA = firstShare(a, b, p)
      return {
        ...{ a, b, p },
        t: smax(a, b, p),
        variance:
          Math.max(0, cov(slope, slope) + (lift ? cov(slope, own) ** 2 * lift.widens : 0)) +
          inA ** 2 * stranger.a +
          (1 - inA) ** 2 * stranger.b,
      }
    })
  }

  /** How far means go back, and variances up, per covariance with the row that is unheard. */
  const liftOf = (v: number, mean: Float64Array, p: number, { block: b, row }: Unheard) => {
    const block = problem.blocks[b] as Block
    const weight = (state.blocks[b]?.weight[row] ?? 0) / rowVariance(block, row, scales)
    const left = 1 - Math.min(HOLDS_MOST, v * weight)
    const residual = (block.y[row] as number) - smax(mean[0] as number, mean[1] as number, p)
    return { by: (weight * residual) / left, widens: weight / left }
  }

  return {
    fit,
    at,
    blockOf: ({ titleId, settingId }) => {
      const setting = catalog.settings.get(settingId)
      return setting === undefined ? -1 : (numbers.get(blockKey(titleId, setting)) ?? -1)
    },
  }
}
