import type { Support } from '../../limits/limit.ts'
import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { type Situation, touches } from '../situation.ts'
import { isLaterModel, runsGenerationToday } from './today.ts'
import { compareVersions } from './versions.ts'

/**
 * Processor firmware: the board's firmware must be the first version that runs the processor, or a later one.
 * Judged when the platform asks for an update or the board maker's list names a version, and not when the same board
 * runs that generation today, unless the model came out after its generation. An update in the change itself is processor.update. Versions that cannot be put in order give "can't tell".
 */
export const processorFirmware = rule({
  id: 'processor.firmware',
  source: { kind: 'vendor', text: "board maker's processor list: first firmware version for each processor" },
  reads: ['firmware', 'firmwareNeeded'],
  mayRead: ['generationSupport'],
  verdicts: ['fits', 'fits after work'],
  applies: (s, limits) => needsFirmware(s, limits) && !s.change.work.includes('firmware update'),
  about: ({ after }) => after.processor,
  specs: () => ({}),
  values: (_, { firmware, firmwareNeeded }) => ({
    haveFirmware: firmware,
    needFirmware: firmwareNeeded,
    order: compareVersions(firmware, firmwareNeeded),
  }),
  doubts: ({ order, haveFirmware, needFirmware }): Missing[] =>
    order === 'not comparable'
      ? [{ limit: 'firmware', doubt: `${haveFirmware} and ${needFirmware} cannot be put in order` }]
      : [],
  verdict: ({ order }) => (order === 'older' ? 'fits after work' : 'fits'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'firmware update' }] : []),
  cautions: (_, verdict) =>
    verdict === 'fits after work' ? ['backup', 'recovery-key', 'no-power-loss', 'one-way'] : [],
})

/** True when the firmware of the board must be of a certain version for the processor of this change. */
export const needsFirmware = (
  s: Situation,
  limits: { readonly generationSupport?: Support | undefined; readonly firmwareNeeded?: string | undefined },
): boolean =>
  s.after.processor !== undefined &&
  touches(s, 'processor', 'board') &&
  (isLaterModel(s) ||
    (!runsGenerationToday(s) &&
      (limits.generationSupport === 'firmware update' || limits.firmwareNeeded !== undefined)))
