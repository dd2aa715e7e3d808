import { NEXT_SYSTEM } from '../../facts/systemVersions.ts'
import type { Drive } from '../../part.ts'
import { rule } from '../rule.ts'
import { type Spec, spec } from '../spec.ts'
import { isUpgrade } from './upgrade.ts'

/**
 * Drive for the next system version: one drive of the size that the vendor asks for, in GB as its label counts them.
 * Which drive the system lies on is not on record, so the largest counts. Equal is enough.
 */
export const systemDisk = rule({
  id: 'system.disk',
  source: NEXT_SYSTEM.source,
  reads: [],
  thresholds: ['64 GB on one drive'],
  verdicts: ['fits', 'fits after work'],
  applies: isUpgrade,
  about: ({ after }) => largest(after.drives),
  specs: ({ after }): { driveGBs: readonly Spec<number>[] } => {
    // One drive that is large enough settles it, whatever is not known of the others.
    const best = largest(after.drives)
    const isEnough = (best?.capacityGB ?? 0) >= NEXT_SYSTEM.driveGB
    const drives = isEnough || after.drives.length === 0 ? [best] : after.drives
    return { driveGBs: drives.map((drive) => spec(drive, 'drive', 'capacityGB')) }
  },
  values: ({ driveGBs }) => ({ driveGB: Math.max(...driveGBs), needGB: NEXT_SYSTEM.driveGB }),
  verdict: ({ driveGB, needGB }) => (driveGB >= needGB ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'drive' }] : []),
})

/** The drive with the largest size that is known; the first where none is. */
const largest = (drives: readonly Drive[]): Drive | undefined =>
  drives.reduce<Drive | undefined>(
    (best, drive) => (best === undefined || sizeOf(drive) > sizeOf(best) ? drive : best),
    undefined,
  )

const sizeOf = ({ capacityGB }: Drive): number =>
  capacityGB !== undefined && Number.isFinite(capacityGB) ? capacityGB : 0
