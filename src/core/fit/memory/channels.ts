import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory channels: one module alone uses one of the two channels that every processor of our tables has, and half
 * the peak rate. Two or more modules use both, given that they sit in the right slots.
 */
export const memoryChannels = rule({
  id: 'memory.channels',
  source: {
    kind: 'common practice',
    text: 'a module has a 64-bit data path (JEDEC); two channels double the peak rate',
  },
  reads: [],
  thresholds: ['2 channels (Intel and AMD processor pages)'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'modules')) }),
  values: ({ kits }) => {
    const modules = kits.reduce((total, n) => total + n, 0)
    return { modules, channelsUsed: Math.min(modules, CHANNELS), channels: CHANNELS }
  },
  verdict: ({ channelsUsed, channels }) => (channelsUsed < channels ? 'fits slower' : 'fits'),
})

/** Channels of the desktop sockets in facts/sockets; Intel and AMD processor pages. */
const CHANNELS = 2
