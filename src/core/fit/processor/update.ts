import { rule } from '../rule.ts'
import { needsFirmware } from './firmware.ts'
import { compareVersions } from './versions.ts'

/**
 * A firmware update that is part of the job: then the version in the board today does not matter, as long as the
 * board maker lists one that runs the processor. The update comes before the processor.
 */
export const processorUpdate = rule({
  id: 'processor.update',
  source: { kind: 'vendor', text: "board maker's processor list: first firmware version for each processor" },
  reads: ['firmwareNeeded'],
  mayRead: ['generationSupport', 'firmware'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, limits) => s.change.work.includes('firmware update') && needsFirmware(s, limits),
  about: ({ after }) => after.processor,
  specs: () => ({}),
  values: (_, { firmwareNeeded, firmware }) => ({
    needFirmware: firmwareNeeded,
    haveFirmware: firmware ?? 'not known',
    order: firmware === undefined ? 'not comparable' : compareVersions(firmware, firmwareNeeded),
  }),
  verdict: ({ order }) => (order === 'same' || order === 'newer' ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'firmware update' }] : []),
  cautions: () => ['backup', 'recovery-key', 'no-power-loss', 'one-way'],
})
