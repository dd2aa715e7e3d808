import type { GainModel } from '../gain.ts'
import { excerptFrom } from './excerpt.ts'
import type { Fit } from './fit.ts'
import { predictorOf } from './predict.ts'
import { pullsOn } from './pulls.ts'
import { viewsOf } from './view.ts'

/*
 * The statistical gain model. `fitModel` takes seconds on a large shop: call it in a worker, keep the Fit (plain data
 * and typed arrays, so it can be posted to another thread), give `saveStart` to the next fit.
 */

/** Predicts from a fit. A title and setting are prepared when they are first asked for. */
export function modelOf(fit: Fit): GainModel {
  const viewOf = viewsOf(fit)
  const predictor = predictorOf({
    viewOf,
    pullsOn: pullsOn(fit),
    catalog: fit.catalog,
    at: fit.at,
    windowDays: fit.data.policy.runWindowDays,
  })
  return {
    name: fit.name,
    predict: predictor.predict,
    difference: predictor.difference,
    why: predictor.why,
    excerpt: (of) => excerptFrom(fit, viewOf, of),
  }
}

export type { GainData, GainPart } from './data.ts'
export { excerptOf, modelOfExcerpt } from './excerpt.ts'
export type { Excerpt, ExcerptOf } from './excerptTypes.ts'
export { type Fit, fitModel } from './fit.ts'
export { MODEL_NAME } from './name.ts'
export { readStart, type Start, saveStart } from './start.ts'
export { addRun } from './update.ts'
