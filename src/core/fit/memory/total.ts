import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory total: GB of all modules against what board and processor drive, and the largest module against what one
 * slot drives.
 *
 *   totalGB = sum over kits of modules x moduleGB
 */
export const memoryTotal = rule({
  id: 'memory.total',
  source: { kind: 'vendor', text: 'board and processor pages: maximum memory, and maximum a slot' },
  reads: ['memoryMaxGB', 'memoryPerSlotMaxGB'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board', 'processor'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({
    modules: after.memory.map((kit) => spec(kit, 'memory', 'modules')),
    moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')),
  }),
  values: ({ modules, moduleGBs }, limits) => ({
    totalGB: moduleGBs.reduce((total, moduleGB, i) => total + moduleGB * (modules[i] ?? Number.NaN), 0),
    maxGB: limits.memoryMaxGB,
    moduleGB: Math.max(...moduleGBs),
    perSlotGB: limits.memoryPerSlotMaxGB,
  }),
  verdict: ({ totalGB, maxGB, moduleGB, perSlotGB }) =>
    totalGB <= maxGB && moduleGB <= perSlotGB ? 'fits' : 'does not fit',
})
