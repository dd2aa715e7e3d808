import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { ratesOf } from './rates.ts'

/**
 * Memory rate: the data rate the modules run at, see ratesOf.
 *
 * All modules run at one rate, so the slowest decides, and one faster module is enough for `fits slower`.
 * controllerMts is the limit at the modules per channel *after* the change. Where the chipset allows it and the board
 * lists it, one module a channel may run above the controller's rated figure: that is overclocking, which
 * memory.profile says; what is promised stands under ratedMts. Never `does not fit`: a module that runs below its
 * rating still works.
 */
export const memoryRate = rule({
  id: 'memory.rate',
  source: {
    kind: 'common practice',
    text: "all modules run at the slowest of module, processor's controller and board (processor and board pages)",
  },
  reads: ['controllerRateMts', 'boardRateMts'],
  mayRead: ['memoryOverclock'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'processor', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'rateMts')) }),
  values: ({ kits }, { controllerRateMts, boardRateMts, memoryOverclock }, { after }) => {
    const slowestMts = Math.min(...kits)
    const { ratedMts, runsMts, profileMts } = ratesOf(
      slowestMts,
      controllerRateMts,
      boardRateMts,
      memoryOverclock,
      after.memory,
    )
    return {
      slowestMts,
      fastestMts: Math.max(...kits),
      controllerMts: controllerRateMts,
      boardMts: boardRateMts,
      ratedMts,
      runsMts,
      profileMts,
    }
  },
  verdict: ({ runsMts, fastestMts }) => (runsMts < fastestMts ? 'fits slower' : 'fits'),
})
