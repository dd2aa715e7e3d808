import type { GainAsk, GainModel, LogGain } from './gain.ts'
import { type Fitted, fittedKey } from './run.ts'

/**
 * What one new end gains over another, the old end cancelled: mean and standard deviation of their difference in one
 * title. Turned round it changes its sign exactly. `undefined` where the model knows nothing of one of them.
 */
export function between(
  model: GainModel,
  ask: Omit<GainAsk, 'before' | 'after'>,
  first: Fitted | undefined,
  second: Fitted | undefined,
): LogGain | undefined {
  if (first === undefined || second === undefined) return undefined
  if (fittedKey(first) === fittedKey(second)) return { logGain: 0, sd: 0 }
  const both = { ...ask, before: first, after: second }
  if (model.difference !== undefined) return model.difference(both)
  const gain = model.predict(both)
  return gain.grade === 'no number' ? undefined : { logGain: gain.logGain, sd: gain.sd }
}
