import { CONNECTORS } from '../../facts/connectors.ts'
import type { Processor } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { limitPower } from './limitPower.ts'

/**
 * Processor plug: what the processor takes for longer than a moment against what the supply's plug carries.
 *
 *   drawW = min(processor's sustained limit, what the board feeds)
 *
 * Every supply has at least the 4-pin plug, so the rule is silent up to what that carries. Many boards have a second
 * socket for the processor. It never decides: the highest sustained limit in print for the sockets we know is 253 W
 * (facts/powerClasses; AMD's PPT is lower), and one 8-pin plug carries 384 W. Peaks of 10 ms (436.8 W for the 125 W class,
 * Intel 336521, Table 2-1) are above that, and the rating of a contact is one of heat, which builds up over minutes.
 */
export const processorPlug = rule({
  id: 'processor.plug',
  source: {
    kind: 'standard',
    text: 'ATX12V design guide, processor plugs: two or four 12 V contacts of 8 A each',
  },
  reads: ['processorPlug'],
  mayRead: ['processorPowerW'],
  thresholds: ['192 W over a 4-pin plug, 384 W over an 8-pin plug (8 A a contact at 12 V)'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { processorPowerW }) =>
    (drawOf(s.after.processor, processorPowerW) ?? 0) > CONNECTORS.eps4.sustainedW &&
    touches(s, 'processor', 'board', 'supply'),
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ processorLimitW: limitPower(after.processor) }),
  values: ({ processorLimitW }, limits) => ({
    drawW: Math.min(processorLimitW, limits.processorPowerW ?? processorLimitW),
    plug: limits.processorPlug,
    plugW: (limits.processorPlug === '4-pin' ? CONNECTORS.eps4 : CONNECTORS.eps8).sustainedW,
  }),
  verdict: ({ drawW, plugW }) => (drawW <= plugW ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) => (verdict === 'fits' ? [] : ['psu-closed', 'psu-cables', 'proprietary']),
})

const drawOf = (processor: Processor | undefined, boardW: number | undefined): number | undefined => {
  const { value } = limitPower(processor)
  return value === undefined ? undefined : Math.min(value, boardW ?? value)
}
