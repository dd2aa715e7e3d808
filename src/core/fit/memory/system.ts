import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/** A 32-bit system reaches 4 GB of memory, 2^32 bytes. Judged only where somebody said that it is one. */
export const memorySystem = rule({
  id: 'memory.system',
  source: { kind: 'common practice', text: 'a 32-bit system addresses 2^32 bytes = 4 GB' },
  reads: [],
  mayRead: ['systemBits'],
  thresholds: ['4 GB for a 32-bit system (2^32 bytes)'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, { systemBits }) => systemBits === 32 && s.after.memory.length > 0 && touches(s, 'memory'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({
    modules: after.memory.map((kit) => spec(kit, 'memory', 'modules')),
    moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')),
  }),
  values: ({ modules, moduleGBs }) => ({
    totalGB: moduleGBs.reduce((total, gb, i) => total + gb * (modules[i] ?? Number.NaN), 0),
    systemGB: 4,
  }),
  verdict: ({ totalGB, systemGB }) => (totalGB <= systemGB ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'reinstall' }] : []),
  cautions: (_, verdict) => (verdict === 'fits after work' ? ['backup', 'recovery-key'] : []),
})
