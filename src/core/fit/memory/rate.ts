import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory rate: the data rate the modules are sure to run at.
 *
 *   runsMts = min(slowestMts, controllerMts, boardMts)    all in MT/s
 *
 * All modules run at one rate, so the slowest decides, and one faster module is enough for `fits slower`.
 * controllerMts is the limit at the modules per channel *after* the change. Where the board goes higher than the
 * controller's rated figure, a profile may reach profileMts; that is overclocking, and no promise. Never `does not
 * fit`: a module that runs below its rating still works.
 */
export const memoryRate = rule({
  id: 'memory.rate',
  source: {
    kind: 'common practice',
    text: "all modules run at the slowest of module, processor's controller and board (processor and board pages)",
  },
  reads: ['controllerRateMts', 'boardRateMts'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'processor', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'rateMts')) }),
  values: ({ kits }, { controllerRateMts, boardRateMts }) => {
    const slowestMts = Math.min(...kits)
    return {
      slowestMts,
      fastestMts: Math.max(...kits),
      controllerMts: controllerRateMts,
      boardMts: boardRateMts,
      runsMts: Math.min(slowestMts, controllerRateMts, boardRateMts),
      profileMts: Math.min(slowestMts, boardRateMts),
    }
  },
  verdict: ({ runsMts, fastestMts }) => (runsMts < fastestMts ? 'fits slower' : 'fits'),
})
