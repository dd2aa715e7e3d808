import { generationNamed } from '../../facts/generations.ts'
import { NEXT_SYSTEM, SYSTEM_PROCESSORS } from '../../facts/systemVersions.ts'
import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { spec } from '../spec.ts'
import { isUpgrade } from './upgrade.ts'

/**
 * Processor for the next system version: its generation must be on the vendor's list. The list names models, so a
 * generation that is partly on it promises nothing, and one that our table does not have neither.
 */
export const systemProcessor = rule({
  id: 'system.processor',
  source: NEXT_SYSTEM.processors,
  reads: [],
  thresholds: ['64-bit, 8th generation Core or Ryzen 2000 and later (lists of supported processors)'],
  verdicts: ['fits', 'does not fit'],
  applies: isUpgrade,
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ generation: spec(after.processor, 'processor', 'generation') }),
  values: ({ generation }) => {
    const named = generationNamed(generation)
    return { generation, listed: named === undefined ? 'not known' : SYSTEM_PROCESSORS[named].listed }
  },
  doubts: ({ generation, listed }, { after }): Missing[] => {
    const { processor } = after
    if (processor === undefined || listed === 'listed' || listed === 'not listed') return []
    const named = generationNamed(generation)
    const which = named === undefined ? undefined : SYSTEM_PROCESSORS[named].lookUp
    const doubt = `look for the model on the system vendor's list of processors${which === undefined ? '' : `: ${which}`}`
    return [{ spec: 'processorClass', partId: processor.id, partName: processor.name, doubt }]
  },
  verdict: ({ listed }) => (listed === 'listed' ? 'fits' : 'does not fit'),
})
