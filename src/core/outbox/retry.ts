const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS

/**
 * Waits after each refusal for now, in minutes: soon at first, then no more often than every half hour, and in the end every
 * four hours. RFC 5321, 4.5.4.1: at least 30 minutes in general, two tries in the first hour, less often afterwards.
 */
const WAITS_MIN = [5, 30, 60, 120, 240] as const

/** RFC 5321, 4.5.4.1: at least 4 to 5 days before it is given up. */
export const GIVE_UP_MS = 5 * 24 * HOUR_MS

/**
 * When to try again after so many tries (1 or more), ISO 8601 UTC; undefined where it is given up, which is when the next try
 * would come later than five days after the first.
 */
export function nextTryAt(tries: number, firstTriedAt: string, at: string): string | undefined {
  const waitMin = WAITS_MIN[Math.min(tries, WAITS_MIN.length) - 1] ?? WAITS_MIN[0]
  const next = Date.parse(at) + waitMin * MINUTE_MS
  return next - Date.parse(firstTriedAt) > GIVE_UP_MS ? undefined : new Date(next).toISOString()
}

/**
 * When the server can't be reached or refuses the sign-in, no mail is at fault: its tries are not used up. So long to wait
 * after so many such failures in a row, in ms.
 */
export const serverWaitMs = (failuresInARow: number): number =>
  Math.min(15 * MINUTE_MS, 10_000 * 2 ** Math.max(0, failuresInARow - 1))
