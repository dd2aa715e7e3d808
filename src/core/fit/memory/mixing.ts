import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import type { Situation } from '../situation.ts'
import { firstAdded, touches } from '../situation.ts'

/**
 * Mixed memory: modules of two models on one board often run and sometimes do not start, whatever their figures say.
 * Only models that run together in this very board today are no question. Never a refusal.
 */
export const memoryMixing = rule({
  id: 'memory.mixing',
  source: { kind: 'vendor', text: 'Intel support article 000088926: identical part numbers' },
  reads: [],
  verdicts: ['fits'],
  applies: (s) => modelsOf(s.after.memory).size > 1 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: () => ({}),
  values: (_, __, s) => ({
    models: [...modelsOf(s.after.memory).values()],
    runsToday: runTogetherToday(s),
  }),
  doubts: ({ runsToday }, s): Missing[] => {
    const kit = firstAdded(s, s.after.memory)
    return runsToday || kit === undefined ? [] : [{ spec: 'ranks', partId: kit.id, partName: kit.name }]
  },
  verdict: () => 'fits',
})

const modelsOf = (kits: Situation['after']['memory']): ReadonlyMap<string, string> =>
  new Map(kits.map((kit) => [kit.id, kit.name]))

function runTogetherToday({ before, after }: Situation): boolean {
  const today = modelsOf(before.memory)
  return before.board?.id === after.board?.id && after.memory.every((kit) => today.has(kit.id))
}
