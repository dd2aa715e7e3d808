import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Memory slots: all modules after the change must have one. Where the new modules fit in once the old ones are out,
 * the machine is judged without the old ones (see judgeChange) and taking them out is the work; more new modules than
 * slots is a plain no.
 */
export const memorySlots = rule({
  id: 'memory.slots',
  source: { kind: 'common practice', text: 'one module a slot' },
  reads: ['memorySlots'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => s.after.memory.length > 0 && touches(s, 'memory', 'board'),
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({ kits: after.memory.map((kit) => spec(kit, 'memory', 'modules')) }),
  values: ({ kits }, limits, { before }) => ({
    modules: sum(kits),
    slots: limits.memorySlots,
    usedSlots: countOf(before.memory.map((kit) => kit.modules)),
  }),
  verdict: ({ modules, slots }, { makesRoom }) =>
    modules > slots ? 'does not fit' : makesRoom === true ? 'fits after work' : 'fits',
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'remove old modules' }] : []),
  cautions: () => ['esd'],
})

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0)

const countOf = (modules: readonly (number | undefined)[]): number | 'not known' => {
  const count = modules.reduce<number>((total, n) => total + (n ?? Number.NaN), 0)
  return count >= 0 && Number.isFinite(count) ? count : 'not known'
}
