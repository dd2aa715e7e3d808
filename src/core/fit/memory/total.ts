import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory total: GB of all modules against what board and processor drive.
 *
 *   totalGB = sum over kits of modules x moduleGB
 *
 * A new processor may drive less in all (8th generation: i3 64 GB, i5 128 GB), so it is judged too. Between the figure
 * of an older processor page and a board page that lists more nobody knows: machines with more exist.
 */
export const memoryTotal = rule({
  id: 'memory.total',
  source: { kind: 'vendor', text: 'board and processor pages: maximum memory' },
  reads: ['memoryMaxGB'],
  mayRead: ['memoryListedMaxGB'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board', 'processor'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({
    modules: after.memory.map((kit) => spec(kit, 'memory', 'modules')),
    moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')),
  }),
  values: ({ modules, moduleGBs }, { memoryMaxGB, memoryListedMaxGB }) => ({
    totalGB: moduleGBs.reduce((total, gb, i) => total + gb * (modules[i] ?? Number.NaN), 0),
    maxGB: memoryMaxGB,
    listedGB: Math.max(memoryListedMaxGB ?? memoryMaxGB, memoryMaxGB),
  }),
  doubts: ({ totalGB, maxGB, listedGB }): Missing[] =>
    totalGB > maxGB && totalGB <= listedGB
      ? [
          {
            limit: 'memoryMaxGB',
            doubt: `the processor page says ${maxGB} GB and the board page ${listedGB} GB`,
          },
        ]
      : [],
  verdict: ({ totalGB, maxGB }) => (totalGB <= maxGB ? 'fits' : 'does not fit'),
})
