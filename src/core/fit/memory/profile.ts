import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { ratesOf } from './rates.ts'

/**
 * Memory profile: the modules may run above the processor's rated figure, which is overclocking. Allowed by the
 * chipset, listed by the board, usual with one module a channel, and promised by nobody: a note beside memory.rate,
 * silent where nothing runs above the rated figure or a limit is not known.
 */
export const memoryProfile = rule({
  id: 'memory.profile',
  source: {
    kind: 'vendor',
    text: "Intel and AMD: rates above the processor's published one are overclocking; chipset pages, memory overclocking",
  },
  reads: [],
  mayRead: ['controllerRateMts', 'boardRateMts', 'memoryOverclock'],
  verdicts: ['fits'],
  applies: (s, { controllerRateMts, boardRateMts, memoryOverclock }) => {
    const rates = s.after.memory.map((kit) => kit.rateMts ?? Number.NaN)
    if (rates.length === 0 || controllerRateMts === undefined || boardRateMts === undefined) return false
    const { runsMts, ratedMts } = ratesOf(
      ...([Math.min(...rates), controllerRateMts, boardRateMts, memoryOverclock] as const),
      s.after.memory,
    )
    return runsMts > ratedMts && touches(s, 'memory', 'processor', 'board')
  },
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'rateMts')) }),
  values: ({ kits }, { controllerRateMts, boardRateMts }) => ({
    profileMts: Math.min(...kits, boardRateMts ?? Number.NaN),
    ratedMts: Math.min(...kits, controllerRateMts ?? Number.NaN),
  }),
  verdict: () => 'fits',
})
