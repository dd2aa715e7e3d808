import type { GainAsk, WantedRun } from '../gain.ts'
import type { Gap } from './gap.ts'
import type { Prepared } from './prepared.ts'
import type { View } from './view.ts'

/**
 * The runs that would help most, the best first. A run at an end with variance v, and covariance c with the gain, takes
 * `c^2 / (v + sigma^2)` off the gain's variance. Where it is open which side sets the pace, the title once at the
 * fewest pixels on the new processor comes too: there log A shows.
 */
export function wantedRuns(
  { titleId, settingId, before, after }: GainAsk,
  { average, lowestSettingId }: View,
  from: Prepared,
  to: Prepared,
  gap: Gap,
): WantedRun[] {
  if (before === undefined || after === undefined) return []
  const noise = average.sigma ** 2
  const { firstVariance: v0, secondVariance: v1, variance } = gap
  const same = from.makings.key === to.makings.key
  const cross = same ? 0 : (v0 + v1 - variance) / 2
  const at = (fitted: typeof before, v: number) => ({
    run: { titleId, settingId, fitted },
    drop: (v - cross) ** 2 / (v + noise),
  })
  const runs = [
    ...(from.cell === undefined ? [at(before, v0)] : []),
    ...(to.cell === undefined && !same ? [at(after, v1)] : []),
  ]
  // Its covariance with the gain is not more than with the frame time of its own end.
  const hidden = to.average.a.variance
  if (lowestSettingId !== settingId && hidden > SHOWS_SD ** 2)
    runs.push({
      run: { titleId, settingId: lowestSettingId, fitted: after },
      drop: runs.length === 0 ? 1 : Math.min(...runs.map(({ drop }) => drop)) / 2,
    })
  return runs.sort((a, b) => b.drop - a.drop).map(({ run }) => run)
}

/** Where log A is known this well, a run at few pixels tells nothing new. */
const SHOWS_SD = 0.25
