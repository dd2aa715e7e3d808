import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory slots: all modules after the change must have one. Taking old modules out is part of the change, so more
 * modules than slots is a plain no.
 */
export const memorySlots = rule({
  id: 'memory.slots',
  source: { kind: 'common practice', text: 'one module a slot' },
  reads: ['memorySlots'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'modules')) }),
  values: ({ kits }, limits) => ({ modules: sum(kits), slots: limits.memorySlots }),
  verdict: ({ modules, slots }) => (modules <= slots ? 'fits' : 'does not fit'),
  cautions: () => ['esd'],
})

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0)
