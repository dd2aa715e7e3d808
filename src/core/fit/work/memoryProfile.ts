import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { spec } from '../spec.ts'

/**
 * Switching the memory's profile on: the rate it may run at then.
 *
 *   runsMts = min(slowestMts, boardMts)                   where the board may go above the processor's rate
 *   runsMts = min(slowestMts, controllerMts, boardMts)    elsewhere: the switch changes nothing above the processor's
 *
 * Above the processor's rated figure it is overclocking: most kits do it, none is sure to. `fits slower` where the
 * fastest kit stays below its label all the same.
 */
export const workMemoryProfile = rule({
  id: 'work.memoryProfile',
  source: {
    kind: 'vendor',
    text: 'chipset pages, memory overclocking; processor and board pages, memory rates',
  },
  reads: ['memoryOverclock', 'controllerRateMts', 'boardRateMts'],
  verdicts: ['fits', 'fits slower'],
  applies: ({ after, change }) => change.work.includes('memory profile on') && after.memory.length > 0,
  about: ({ after }) => after.memory[0],
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'rateMts')) }),
  values: ({ kits }, { memoryOverclock, controllerRateMts, boardRateMts }, { after }) => {
    const slowestMts = Math.min(...kits)
    const mayOverclock = memoryOverclock === 'yes'
    // A board whose page gives no rate has only the processor's, above which nobody knows how far it goes.
    const isListed = after.board?.memoryRateMtsMax !== undefined || boardRateMts !== controllerRateMts
    return {
      slowestMts,
      fastestMts: Math.max(...kits),
      controllerMts: controllerRateMts,
      boardMts: boardRateMts,
      mayOverclock,
      isListed: isListed || !mayOverclock || slowestMts <= controllerRateMts,
      runsMts: Math.min(slowestMts, boardRateMts, mayOverclock ? slowestMts : controllerRateMts),
    }
  },
  doubts: ({ isListed }): Missing[] =>
    isListed ? [] : [{ limit: 'boardRateMts', doubt: 'how far above the processor its page lists' }],
  verdict: ({ runsMts, fastestMts }) => (runsMts < fastestMts ? 'fits slower' : 'fits'),
  cautions: () => ['backup'],
})
