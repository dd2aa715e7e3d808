import type { Found } from '../../src/uses/findAnything.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { asStaff } from './signedIn.ts'
import type { PageState } from './states.ts'

const NOTHING: Found = {
  hits: {
    ...{ machine: [], customer: [], question: [], job: [], round: [], mail: [], plan: [] },
    ...{ item: [], part: [], title: [], run: [] },
  },
  exact: [],
}

const many = (n: number) =>
  Array.from({ length: n }, (_, i) => ({ id: `M-${String(1420 + i)}`, name: 'Imre Vale' }))

/** A little of each kind for `vale`, more machines than are shown for `many`, one machine for its tag. */
const ALL: Found = {
  exact: [],
  hits: {
    machine: [{ id: 'T-0007', name: 'Imre Vale' }],
    customer: [{ id: 'C-7', name: 'Imre Vale', beside: 'imre@example.com' }],
    question: [{ id: 'Q-0007', name: 'What should I add to play smoothly at 75 Hz?', beside: 'T-0007' }],
    job: [{ id: 'J-0001', beside: 'T-0007' }],
    round: [{ id: 'O-0001', name: 'Valerian 8' }],
    mail: [{ id: '12', name: 'Your upgrade', beside: 'Imre Vale' }],
    plan: [{ id: '3', name: 'Vale on a budget' }],
    item: [{ id: 'S-1', name: 'Valerian 8', beside: 'used' }],
    part: [{ id: 'valerian-8', name: 'Valerian 8', beside: 'card' }],
    title: [{ id: 'vale', name: 'Vale of Ash' }],
    run: [{ id: 'R-vale', name: 'Vale of Ash', beside: 'T-0007' }],
  },
}

export const cannedFind: Pick<WebUses, 'find'> = {
  find: async (typed) => {
    if (typed === 'vale') return ALL
    if (typed === 'many')
      return { ...NOTHING, hits: { ...NOTHING.hits, machine: many(9), part: ALL.hits.part } }
    if (typed !== 'T-0007') return NOTHING
    return {
      hits: { ...NOTHING.hits, machine: ALL.hits.machine },
      exact: [{ kind: 'machine', id: 'T-0007' }],
    }
  },
}

export const FIND_STATES: readonly PageState[] = [
  { name: 'find', path: '/find' },
  { name: 'find-staff', path: '/find', as: asStaff.everybodyIs },
  { name: 'find-found', path: '/find?q=vale' },
  { name: 'find-many', path: '/find?q=many' },
  { name: 'find-page', path: '/find?q=sett' },
  { name: 'find-none', path: '/find?q=nothing+like+that' },
  { name: 'find-empty', path: '/find?q=+', status: 422 },
  { name: 'find-long', path: `/find?q=${'long'.repeat(26)}`, status: 422 },
  { name: 'keys', path: '/keys' },
  { name: 'keys-off', path: '/keys', cookie: 'stillfits-keys=off' },
  { name: 'keys-wrong', path: '/keys', form: { keys: 'loud' }, status: 422 },
]
