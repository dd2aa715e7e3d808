import { sameName } from '../names.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Processor socket: the board's socket must be the processor's own. Necessary and not enough: two platform families
 * share the name LGA1151 (processor.generation), and the firmware may be too old (processor.firmware).
 */
export const processorSocket = rule({
  id: 'processor.socket',
  source: { kind: 'common practice', text: 'a processor goes only into the socket named on its data sheet' },
  reads: ['socket'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.processor !== undefined && touches(s, 'processor', 'board'),
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ needSocket: spec(after.processor, 'processor', 'socket') }),
  values: ({ needSocket }, limits) => ({ needSocket, haveSocket: limits.socket }),
  verdict: ({ needSocket, haveSocket }) => (sameName(needSocket, haveSocket) ? 'fits' : 'does not fit'),
  cautions: () => ['backup', 'recovery-key'],
})
