import { NEXT_SYSTEM } from '../../facts/systemVersions.ts'
import { rule } from '../rule.ts'
import { isUpgrade } from './upgrade.ts'

/** Trust module (TPM) for the next system version: the board must have one of the version that the vendor asks for. */
export const systemTrustModule = rule({
  id: 'system.trustModule',
  source: NEXT_SYSTEM.source,
  reads: ['trustModule'],
  thresholds: ['TPM version 2.0'],
  verdicts: ['fits', 'does not fit'],
  applies: isUpgrade,
  about: ({ after }) => after.board,
  specs: () => ({}),
  values: (_, { trustModule }) => ({ haveModule: trustModule, needModule: NEXT_SYSTEM.trustModule }),
  verdict: ({ haveModule, needModule }) => (haveModule === needModule ? 'fits' : 'does not fit'),
})
