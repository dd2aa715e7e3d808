import type { LimitKey } from '../../limits/limit.ts'
import { limitPower } from '../processor/limitPower.ts'
import type { Situation } from '../situation.ts'
import { type Spec, spec } from '../spec.ts'

/**
 * The figures of both rules that go by the rating. Where the cooler stays and has none, `instead` would let the
 * machine's own measurement decide, so it is asked for too.
 */
export const ratingSpecs = (s: Situation, isSameWay: boolean, instead: LimitKey) => {
  const coolerRatedW = spec(s.after.cooler, 'cooler', 'ratedW')
  const measured: readonly Spec<number>[] =
    coolerRatedW.value === undefined && isSameWay ? [{ value: undefined, missing: { limit: instead } }] : []
  return { processorLimitW: limitPower(s.after.processor), measured, coolerRatedW }
}

type Rated = { readonly processorLimitW: number; readonly coolerRatedW: number }

export const ratedVerdict = ({ processorLimitW, coolerRatedW }: Rated) =>
  processorLimitW <= coolerRatedW ? 'fits' : 'fits slower'

export const RATING_SOURCE = {
  kind: 'common practice',
  text: "processor's sustained limit (PL2 or PPT) against the cooler's own rating",
} as const
