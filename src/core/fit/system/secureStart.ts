import { NEXT_SYSTEM } from '../../facts/systemVersions.ts'
import { rule } from '../rule.ts'
import { isUpgrade } from './upgrade.ts'

/** Secure start for the next system version: the firmware must be able to start signed systems only. */
export const systemSecureStart = rule({
  id: 'system.secureStart',
  source: NEXT_SYSTEM.source,
  reads: ['secureStart'],
  verdicts: ['fits', 'does not fit'],
  applies: isUpgrade,
  about: ({ after }) => after.board,
  specs: () => ({}),
  values: (_, { secureStart }) => ({ canSecureStart: secureStart === 'yes' }),
  verdict: ({ canSecureStart }) => (canSecureStart ? 'fits' : 'does not fit'),
})
