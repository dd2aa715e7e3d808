import type { MemoryType } from '../../part.ts'
import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory generation: every kit must be of the board's generation; the notches sit elsewhere. DDR3L modules also run
 * at the 1.5 V of a DDR3 board; DDR3 modules do not run at the 1.35 V of a board for DDR3L.
 */
export const memoryGeneration = rule({
  id: 'memory.generation',
  source: {
    kind: 'standard',
    text: 'Intel 655258 (12th generation datasheet vol. 1), Memory Controller: one technology a system; JEDEC JESD79-3-1 (DDR3L)',
  },
  reads: ['memoryType'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'memoryType')) }),
  values: ({ kits }, { memoryType }) => ({
    kitGeneration: kits.find((kit) => !goesInto(kit, memoryType)) ?? kits[0],
    boardGeneration: memoryType,
  }),
  verdict: ({ kitGeneration, boardGeneration }) =>
    goesInto(kitGeneration, boardGeneration) ? 'fits' : 'does not fit',
})

const goesInto = (kit: MemoryType, board: MemoryType): boolean =>
  kit === board || (kit === 'DDR3L' && board === 'DDR3')
