import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory total: GB of all modules against what board and processor drive, and the largest module against what one
 * slot drives.
 *
 *   totalGB = sum over kits of modules x moduleGB
 *
 * A new processor may drive less in all (8th generation: i3 64 GB, i5 128 GB), so it is judged too; then the modules
 * stay in slots that hold them today, and the figure for one slot is not asked for.
 */
export const memoryTotal = rule({
  id: 'memory.total',
  source: { kind: 'vendor', text: 'board and processor pages: maximum memory, and maximum a slot' },
  reads: ['memoryMaxGB'],
  mayRead: ['memoryPerSlotMaxGB'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board', 'processor'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({
    modules: after.memory.map((kit) => spec(kit, 'memory', 'modules')),
    moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')),
  }),
  values: ({ modules, moduleGBs }, { memoryMaxGB, memoryPerSlotMaxGB }, situation) => {
    const moduleGB = Math.max(...moduleGBs)
    const totalGB = moduleGBs.reduce((total, gb, i) => total + gb * (modules[i] ?? Number.NaN), 0)
    const perSlotGB = touches(situation, 'memory', 'board') ? memoryPerSlotMaxGB : moduleGB
    const over = totalGB > memoryMaxGB ? 'total' : moduleGB > (perSlotGB ?? NOT_KNOWN) ? 'slot' : 'nothing'
    return { totalGB, maxGB: memoryMaxGB, moduleGB, perSlotGB: perSlotGB ?? 'not known', over }
  },
  doubts: ({ over, perSlotGB }): Missing[] =>
    over === 'nothing' && perSlotGB === 'not known' ? [{ limit: 'memoryPerSlotMaxGB' }] : [],
  verdict: ({ over }) => (over === 'nothing' ? 'fits' : 'does not fit'),
})

/** No module is over a figure that nobody knows; `doubts` then keeps it from counting as fine. */
const NOT_KNOWN = Number.POSITIVE_INFINITY
