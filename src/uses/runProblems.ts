import { copyKey, type Run, type Title } from '../core/gain/run.ts'
import { dayOf } from '../input/dates.ts'
import type { Problem } from '../problem.ts'

type Lows = Pick<Run, 'averageFps' | 'low1Fps' | 'low1MeanFps' | 'low01Fps' | 'low01MeanFps'>
type Low = Exclude<keyof Lows, 'averageFps'>

/** Each low with the figure that it cannot be above, and why. */
const NOT_ABOVE: readonly (readonly [Low, keyof Lows, string])[] = [
  ['low1Fps', 'averageFps', 'is what 99 of 100 frames beat'],
  ['low1MeanFps', 'averageFps', 'is the mean of the slowest frames'],
  ['low01Fps', 'averageFps', 'is what 999 of 1000 frames beat'],
  ['low01MeanFps', 'averageFps', 'is the mean of the slowest frames'],
  ['low01Fps', 'low1Fps', 'is what 999 of 1000 frames beat'],
  ['low01MeanFps', 'low1MeanFps', 'is the mean of the slowest frames'],
]
/** What a share of the frames beats, however long the others last. */
const PERCENTILES: ReadonlySet<Low> = new Set(['low1Fps', 'low01Fps'])

const NAMES: Record<Low, string> = {
  low1Fps: '1% low',
  low1MeanFps: '1% low',
  low01Fps: '0.1% low',
  low01MeanFps: '0.1% low',
}

/**
 * Slow moments that would be faster than they can be; one problem a figure. In a log one pause of seconds brings the
 * average below what 99 of 100 frames beat, so there that one comparison says nothing; by hand it is a slip.
 */
export function lowProblems(figures: Lows & Pick<Run, 'logId'>): Problem[] {
  const problems = new Map<Low, Problem>()
  for (const [low, than, why] of NOT_ABOVE) {
    if (figures.logId !== undefined && than === 'averageFps' && PERCENTILES.has(low)) continue
    const [got, most] = [figures[low], figures[than]]
    if (got === undefined || most === undefined || got <= most || problems.has(low)) continue
    const name = than === 'averageFps' ? 'the average' : `the ${NAMES[than]}`
    const next = `is above ${name} of ${most} FPS. The ${NAMES[low]} ${why}: correct one of the two.`
    problems.set(low, { code: 'not allowed', field: low, got: String(got), next })
  }
  return [...problems.values()]
}

/** A measurement of a day that has not come. Hours of the same day are nobody's slip. */
export function lateProblem(at: string, now: string, timeZone: string): Problem | undefined {
  const [day, today] = [dayOf(at, timeZone), dayOf(now, timeZone)]
  if (day <= today) return undefined
  const next = `This day has not come yet: today is ${today}. Correct the date.`
  return { code: 'not allowed', field: 'at', got: day, next }
}

/** A version that its title does not list; titles without a list take any. */
export function versionProblem(version: string, title: Title | undefined): Problem | undefined {
  const listed = title?.versions ?? []
  if (listed.length === 0 || listed.some((v) => v.version === version)) return undefined
  const names = listed.map((v) => v.version).join(', ')
  const next = `${title?.name} has no such version. It has ${names}. Add it to the title’s versions, or correct it.`
  return { code: 'unknown name', field: 'titleVersion', got: version, allowed: names, next }
}

/** The run that this one is a copy of: same machine, cell, minute and numbers under another id. */
export function copyOf(run: Run, runs: Iterable<Run>): Run | undefined {
  const key = copyKey(run)
  for (const other of runs) if (other.id !== run.id && copyKey(other) === key) return other
  return undefined
}
