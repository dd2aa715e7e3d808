import { NEXT_SYSTEM } from '../../facts/systemVersions.ts'
import { rule } from '../rule.ts'
import { type Spec, spec } from '../spec.ts'
import { isUpgrade } from './upgrade.ts'

/** Memory for the next system version: all modules together, in GB. Equal is enough. */
export const systemMemory = rule({
  id: 'system.memory',
  source: NEXT_SYSTEM.source,
  reads: [],
  thresholds: ['4 GB of memory'],
  verdicts: ['fits', 'fits after work'],
  applies: isUpgrade,
  about: ({ after }) => after.memory[0],
  specs: ({ after }): { modules: readonly Spec<number>[]; moduleGBs: readonly Spec<number>[] } => {
    // A machine without a kit on record has memory that nobody wrote down.
    const kits = after.memory.length === 0 ? [undefined] : after.memory
    return {
      modules: kits.map((kit) => spec(kit, 'memory', 'modules')),
      moduleGBs: kits.map((kit) => spec(kit, 'memory', 'moduleGB')),
    }
  },
  values: ({ modules, moduleGBs }) => ({
    totalGB: moduleGBs.reduce((total, gb, i) => total + gb * (modules[i] ?? Number.NaN), 0),
    needGB: NEXT_SYSTEM.memoryGB,
  }),
  verdict: ({ totalGB, needGB }) => (totalGB >= needGB ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'memory' }] : []),
})
