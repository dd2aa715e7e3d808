import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Module size against what the board lists for one slot. Larger modules than listed came later and often run, so more
 * than the list is no promise and no refusal. Modules that stay in their slots are not judged again.
 */
export const memoryPerSlot = rule({
  id: 'memory.perSlot',
  source: { kind: 'vendor', text: 'board page: largest module a slot' },
  reads: ['memoryPerSlotMaxGB'],
  verdicts: ['fits'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')) }),
  values: ({ moduleGBs }, { memoryPerSlotMaxGB }) => ({
    moduleGB: Math.max(...moduleGBs),
    listedGB: memoryPerSlotMaxGB,
  }),
  doubts: ({ moduleGB, listedGB }): Missing[] =>
    moduleGB > listedGB
      ? [
          {
            limit: 'memoryPerSlotMaxGB',
            doubt: `${moduleGB} GB modules are not on the list, which ends at ${listedGB} GB`,
          },
        ]
      : [],
  verdict: () => 'fits',
})
