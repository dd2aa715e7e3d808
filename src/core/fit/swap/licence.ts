import { rule } from '../rule.ts'
import { hasNewBoard } from './newBoard.ts'

/**
 * The licence of the installed system on a new board. One that moves is activated again; one that came with the old
 * machine stays with its board. Where nobody knows, activating is tried first, and a new licence may be needed: a
 * system without one still starts, so this is work and never a no.
 */
export const swapLicence = rule({
  id: 'swap.licence',
  source: {
    kind: 'vendor',
    text: 'system vendor, activation after a change of hardware: a licence that came with a machine is bound to its board',
  },
  reads: [],
  mayRead: ['systemLicence'],
  verdicts: ['fits', 'fits after work'],
  applies: (s) => hasNewBoard(s),
  about: ({ after }) => after.board,
  specs: () => ({}),
  values: (_, { systemLicence }) => ({ licence: systemLicence ?? 'not known' }),
  verdict: ({ licence }) => (licence === 'none' ? 'fits' : 'fits after work'),
  needs: ({ licence }, verdict) => {
    if (verdict === 'fits') return []
    return [{ work: licence === 'tied to the board' ? 'new system licence' : 'activate system' }]
  },
  cautions: (_, verdict) => (verdict === 'fits' ? [] : ['backup']),
})
