import { limitPower } from '../processor/limitPower.ts'
import { rule } from '../rule.ts'
import { type Situation, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Cooler capacity, first form: what the processor may draw for hours against what the cooler is rated to carry away.
 *
 *   fits  where  processorLimitW <= coolerRatedW
 *
 * A processor that gets too hot slows itself down, so more than the rating is `fits slower`, never a no. What the
 * machine's own temperatures say will weigh more than a rating; until they are asked for, the rating decides. A
 * processor that draws no more than the one in there today needs no proof: that cooler carries it already.
 */
export const coolingCapacity = rule({
  id: 'cooling.capacity',
  source: {
    kind: 'common practice',
    text: "processor's sustained limit (PL2 or PPT) against the cooler's own rating",
  },
  reads: [],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.processor !== undefined && touches(s, 'processor', 'cooler') && !carriedToday(s),
  about: ({ after }) => after.cooler,
  specs: ({ after }) => ({
    processorLimitW: limitPower(after.processor),
    coolerRatedW: spec(after.cooler, 'cooler', 'ratedW'),
  }),
  values: ({ processorLimitW, coolerRatedW }) => ({ processorLimitW, coolerRatedW }),
  verdict: ({ processorLimitW, coolerRatedW }) => (processorLimitW <= coolerRatedW ? 'fits' : 'fits slower'),
  cautions: () => ['hot-parts'],
})

/** The same cooler carries a processor today that draws as much or more. */
function carriedToday(s: Situation): boolean {
  if (touches(s, 'cooler')) return false
  const [today, next] = [limitPower(s.before.processor).value, limitPower(s.after.processor).value]
  return today !== undefined && next !== undefined && next <= today
}
