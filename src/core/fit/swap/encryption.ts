import { needsFirmware } from '../processor/firmware.ts'
import { compareVersions } from '../processor/versions.ts'
import { rule } from '../rule.ts'
import { hasNewBoard } from './newBoard.ts'

/**
 * An encrypted drive asks for its recovery key when the board or its firmware is another one, so the encryption is
 * paused before. Judged before a new board and before a firmware update, whether the update is part of the job or the
 * processor asks for it (processor.firmware). Where nobody knows whether the drive is encrypted, it counts as that.
 */
export const swapEncryption = rule({
  id: 'swap.encryption',
  source: {
    kind: 'vendor',
    text: 'system vendor, drive encryption: a new board or new firmware asks for the recovery key; pause it before',
  },
  reads: [],
  mayRead: ['diskEncrypted', 'generationSupport', 'firmware', 'firmwareNeeded'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, limits) => {
    const { firmware, firmwareNeeded } = limits
    const isTooOld =
      firmware !== undefined &&
      firmwareNeeded !== undefined &&
      compareVersions(firmware, firmwareNeeded) === 'older'
    const asksForUpdate = isTooOld && needsFirmware(s, limits)
    return hasNewBoard(s) || s.change.work.includes('firmware update') || asksForUpdate
  },
  about: ({ after }) => after.board,
  specs: () => ({}),
  values: (_, { diskEncrypted }, s) => ({
    encrypted: diskEncrypted ?? 'not known',
    before: hasNewBoard(s) ? 'new board' : 'firmware update',
  }),
  verdict: ({ encrypted }) => (encrypted === 'no' ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'pause encryption' }] : []),
  cautions: (_, verdict) => (verdict === 'fits after work' ? ['backup', 'recovery-key'] : []),
})
