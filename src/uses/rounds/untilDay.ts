import { dayOf, instantOf } from '../../input/dates.ts'

const DAY_MS = 86_400_000

const midnightOf = (day: string): number => Date.parse(`${day}T00:00:00Z`)

/**
 * The last moment of the day that many days after an instant, in the shop's time zone. Mail and page name the day, so a yes on
 * its evening still counts; clock changes between do not matter.
 */
export function untilEndOfDay(at: string, days: number, timeZone: string): string {
  const next = new Date(midnightOf(dayOf(at, timeZone)) + (days + 1) * DAY_MS).toISOString().slice(0, 10)
  return new Date(Date.parse(instantOf(next, '00:00', timeZone)) - 1).toISOString()
}

/** How many days after the day of `at` the day of `until` is, in the shop's time zone. */
export const daysUntil = (at: string, until: string, timeZone: string): number =>
  Math.round((midnightOf(dayOf(until, timeZone)) - midnightOf(dayOf(at, timeZone))) / DAY_MS)
