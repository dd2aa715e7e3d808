import { modelOf } from '../../src/core/gain/model/index.ts'
import { NOISE } from '../../src/core/gain/noise.ts'
import type { MeasuredPromise } from '../../src/core/gain/reliability/reliability.ts'
import { promisedBy } from '../../src/core/job/promise.ts'
import { fitOf } from '../bench/gainPredictor.ts'
import type { Ask } from './asks.ts'
import { randomFor } from './random.ts'
import type { Shop } from './shop.ts'

/*
 * Promises of a simulated shop and what came out. All of them are made from one fit, today; each job is a past buyer's
 * question and one of its options, drawn by chance, in two titles. After the work the shop makes one run in each on the
 * machine itself, as it makes all its runs: own silicon, the day's room and form, other programs, another walk. That is
 * harder on the count of independent promises than a real shop is, whose fits take in each result before the next promise.
 */

/** `gain`: by what all promises are too high; `width`: how wide they are, of what the model gives. */
export type Bias = { readonly gain: number; readonly width: number }
export const BIASES = {
  honest: { gain: 1, width: 1 },
  'half the width': { gain: 1, width: 0.5 },
  'a tenth too low': { gain: 0.9, width: 1 },
} as const satisfies Record<string, Bias>
export type BiasName = keyof typeof BIASES

/** `trueFps`: what is so today for typical parts of the kind, which no run hits. */
export type TrackedPromise = MeasuredPromise & { readonly trueFps: number }

/** Promises of so many jobs, the run after each, and what is so beside it. */
export function promisesIn(shop: Shop, jobs: number): TrackedPromise[] {
  const model = modelOf(fitOf(shop))
  const random = randomFor(shop.seed, 'promises')
  const out: TrackedPromise[] = []
  const byQuestion = new Map<string, Ask[]>()
  for (const ask of shop.asks) byQuestion.set(ask.question, [...(byQuestion.get(ask.question) ?? []), ask])
  let made = 0
  for (const [question, asks] of byQuestion) {
    if (made === jobs) break
    const ask = random.pick(asks)
    const { before, after, machineTag } = ask
    const promised = [ask, otherTitle(shop, ask)].flatMap(({ titleId, settingId }) =>
      promisedBy(
        [model.predict({ machineTag, before, after, titleId, settingId })],
        [{ titleId, settingId, weight: 1 }],
      ),
    )
    if (promised.length > 0) made++
    for (const one of promised) {
      const { titleId, settingId } = one
      out.push({
        ...{ jobId: question, promised: one, runs: 1, factor: 1 },
        measuredFps: shop.measuredAfterFps({
          id: `${question}|${titleId}`,
          machineTag,
          after,
          titleId,
          settingId,
        }),
        trueFps: shop.truth(after, titleId, settingId).averageFps,
      })
    }
  }
  return out
}

/** Another title that was run on the machine, else any other, in 1080p high. */
function otherTitle(
  { seed, runs, titles }: Shop,
  { id, machineTag, titleId }: Ask,
): Pick<Ask, 'titleId' | 'settingId'> {
  const own = runs.filter((run) => run.machineTag === machineTag).map((run) => run.titleId)
  const others = (ids: readonly string[]) => [...new Set(ids)].filter((other) => other !== titleId)
  const known = others(own)
  const from = known.length > 0 ? known : others(titles.map((title) => title.id))
  return { titleId: randomFor(seed, 'other title', id).pick(from), settingId: '1080-high' }
}

/** The same promises, had they been made with a bias. */
export function biased(all: readonly MeasuredPromise[], { gain, width }: Bias): MeasuredPromise[] {
  return all.map((one) => {
    const { afterFps, afterFpsLow, afterFpsHigh } = one.promised
    const said = gain * afterFps
    return {
      ...one,
      promised: {
        ...{ ...one.promised, afterFps: said },
        afterFpsLow: said * (afterFpsLow / afterFps) ** width,
        afterFpsHigh: said * (afterFpsHigh / afterFps) ** width,
      },
    }
  })
}

/** The same, held against what is so, with the scatter of one run that a promise is judged with. */
export function againstTruth(all: readonly TrackedPromise[], seed: number): MeasuredPromise[] {
  const random = randomFor(seed, 'scatter')
  return all.map((one) => ({ ...one, measuredFps: one.trueFps * random.logNormal(NOISE.oneRunSd) }))
}

/** The same, counted by jobs alone: where all are in one title nothing shows how alike a title's promises miss. */
export const asOneTitle = (all: readonly MeasuredPromise[]): MeasuredPromise[] =>
  all.map((one) => ({ ...one, promised: { ...one.promised, titleId: 'any' } }))
