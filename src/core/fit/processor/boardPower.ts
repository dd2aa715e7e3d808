import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { limitPower } from './limitPower.ts'

/**
 * Processor power: the processor's sustained limit (PL2 or PPT) against what the board feeds it for hours. A board
 * that feeds less holds the processor to that, so it still works: never `does not fit`.
 */
export const processorBoardPower = rule({
  id: 'processor.boardPower',
  source: {
    kind: 'common practice',
    text: "processor's sustained limit (Intel 336521 Table 2-1 note: PL2; AMD: PPT) against the board's rating",
  },
  reads: ['processorPowerW'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.processor !== undefined && touches(s, 'processor', 'board'),
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ processorLimitW: limitPower(after.processor) }),
  values: ({ processorLimitW }, limits) => ({ processorLimitW, boardProcessorW: limits.processorPowerW }),
  verdict: ({ processorLimitW, boardProcessorW }) =>
    processorLimitW <= boardProcessorW ? 'fits' : 'fits slower',
})
