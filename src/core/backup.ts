/** How copies of the database are made without being asked for. */
export type BackupPlan = {
  /** Hour of the day in the shop's time zone, 0 to 23. */
  readonly hour: number
  /** How many of the newest stay. */
  readonly keep: number
  /** After how many days without a good one the shop is warned. */
  readonly warnDays: number
}

/** One that was tried. */
export type BackupTried = {
  readonly at: string
  /** What stood in the way; absent: it was opened and found whole. */
  readonly failure?: string | undefined
}

const QUARTER_MS = 15 * 60_000
const HOUR_MS = 3_600_000
const DAY_MS = 86_400_000
/** A day has at most 25 hours, where clocks are put back. */
const QUARTERS_BACK = 26 * 4

/**
 * The last instant at or before `at` when the clock on the wall showed that hour. Zones differ by quarters of an hour. On
 * the day on which the hour is left out it is that of the day before.
 */
export function lastDue(at: string, hour: number, timeZone: string): string {
  const clock = new Intl.DateTimeFormat('en-GB', {
    ...{ timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  })
  const wanted = `${String(hour).padStart(2, '0')}:00`
  const start = Math.floor(Date.parse(at) / QUARTER_MS) * QUARTER_MS
  for (let back = 0; back <= 2 * QUARTERS_BACK; back++) {
    const then = new Date(start - back * QUARTER_MS)
    if (clock.format(then) === wanted) return then.toISOString()
  }
  throw new RangeError(`no hour ${hour} in ${timeZone}`)
}

/** The newest good one. What lies more than a day ahead was written under a clock that was wrong, and tells nothing. */
export function lastGood(tried: readonly BackupTried[], at: string): string | undefined {
  const ahead = new Date(Date.parse(at) + DAY_MS).toISOString()
  const good = tried.filter((t) => t.failure === undefined && t.at <= ahead).map((t) => t.at)
  return good.sort().at(-1)
}

/**
 * Whether one is to be made now. A computer that was off at the hour makes it after its start; after a failure it is tried
 * again an hour later.
 */
export function isBackupDue(
  tried: readonly BackupTried[],
  at: string,
  plan: Pick<BackupPlan, 'hour'>,
  timeZone: string,
): boolean {
  const good = lastGood(tried, at)
  if (good !== undefined && good >= lastDue(at, plan.hour, timeZone)) return false
  const hourAgo = new Date(Date.parse(at) - HOUR_MS).toISOString()
  return !tried.some((t) => t.failure !== undefined && t.at > hourAgo && t.at <= at)
}

/** Whole days since the last good one; undefined where there is none. */
export function backupAgeDays(tried: readonly BackupTried[], at: string): number | undefined {
  const good = lastGood(tried, at)
  return good === undefined
    ? undefined
    : Math.max(0, Math.floor((Date.parse(at) - Date.parse(good)) / DAY_MS))
}

/** Whether the shop is warned: no good one was ever made, or none for so many days. */
export function isBackupOld(tried: readonly BackupTried[], at: string, warnDays: number): boolean {
  const age = backupAgeDays(tried, at)
  return age === undefined || age >= warnDays
}

/** Those that go: all but the newest `keep`. The newest good one always stays. */
export const toRemove = <T extends { readonly at: string }>(good: readonly T[], keep: number): readonly T[] =>
  [...good].sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0)).slice(Math.max(1, keep))
