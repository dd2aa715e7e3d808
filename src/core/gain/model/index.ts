import type { GainModel, TitleGain } from '../gain.ts'
import type { Run } from '../run.ts'
import type { GainData } from './data.ts'
import type { Excerpt, ExcerptOf } from './excerptTypes.ts'

/*
 * The statistical gain model. `fitModel` takes seconds on a large shop: call it in a worker, keep the Fit (plain data
 * and typed arrays, so it can be posted to another thread), give `saveStart` to the next fit.
 */

/** A fitted model: opaque, structured-cloneable. */
export type Fit = { readonly name: string; readonly at: string; readonly runs: number }

/** Where the next fit starts from, so that it takes fewer steps: plain JSON data. */
export type Start = { readonly name: string; readonly [key: string]: unknown }

const notYet = (): never => {
  throw new Error('the numerics are being written')
}

/** Name of the model; raise it when the same runs would give other gains. */
export const MODEL_NAME = 'two-sided-1'

/** Fits all runs. The order of runs, titles, settings and parts does not matter. */
export const fitModel = (_data: GainData, _start?: Start): Fit => notYet()

/** Predicts from a fit. Prepares titles when they are first asked for. */
export const modelOf = (_fit: Fit): GainModel => notYet()

/** The fit with one run more; full refits are due nightly, after 10 % more runs, and when a run is changed or deleted. */
export const addRun = (_fit: Fit, _run: Run): Fit => notYet()

export const saveStart = (_fit: Fit): Start => notYet()
/** A start read back from JSON; `undefined` when it is none of this model's. */
export const readStart = (_json: unknown): Start | undefined => notYet()

/** Cuts out of a fit what predictions in some titles, settings and parts need. */
export const excerptOf = (_fit: Fit, _of: ExcerptOf): Excerpt => notYet()
/** An excerpt read back from JSON; `undefined` when it is none of this model's or spoilt. */
export const readExcerpt = (_json: unknown): Excerpt | undefined => notYet()
/** The same predictions as the fit's own model, to the last digit, for what the excerpt was cut for; else "no number". */
export const modelOfExcerpt = (_excerpt: Excerpt): GainModel => notYet()

export type { GainData, GainPart } from './data.ts'
export type { Excerpt, ExcerptOf } from './excerptTypes.ts'
export type Predict = (ask: Parameters<GainModel['predict']>[0]) => TitleGain
