import type { Problem } from '../problem.ts'
import { Refusal } from './refusal.ts'

/**
 * A date as an instant (ISO 8601 UTC): `2026-03-04` is noon of that day in the shop's time zone, so that it is shown
 * as that day again; a full instant with `Z` or an offset is kept.
 */
export function readDate(text: string, timeZone: string): string | Refusal {
  const day = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  if (day) {
    const [, y, m, d] = day.map(Number)
    return isDay(y, m, d) ? noonOf(text, timeZone) : noSuchDay
  }
  const instant = /^(\d{4})-(\d{2})-(\d{2})T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/.exec(text)
  if (!instant) return new Refusal('not allowed', 'Write a date as year-month-day, such as 2026-03-04.')
  const [, y, m, d] = instant.map(Number)
  const at = new Date(text)
  return isDay(y, m, d) && !Number.isNaN(at.getTime()) ? at.toISOString() : noSuchDay
}

/** An instant as readDate reads it back: the day where it is noon of that day there, else the instant in full. */
export function writeDate(at: string, timeZone: string): string {
  const day = dayOf(at, timeZone)
  return readDate(day, timeZone) === at ? day : at
}

const noSuchDay = new Refusal('not allowed', 'There is no such day between 1990 and 2100.')

const isDay = (y = 0, m = 0, d = 0): boolean => {
  const at = new Date(Date.UTC(y, m - 1, d))
  return y >= 1990 && y <= 2100 && at.getUTCMonth() === m - 1 && at.getUTCDate() === d
}

const AHEAD_DAYS = 366
const DAY_MS = 86_400_000

/** A sale that lies more than a year ahead of `now`: a slip in the year. None where it may be meant. */
export function saleProblem(soldAt: string | undefined, now: string, timeZone: string): Problem | undefined {
  if (soldAt === undefined || Date.parse(soldAt) <= Date.parse(now) + AHEAD_DAYS * DAY_MS) return undefined
  const next = 'This sale would be more than a year ahead. Correct the year.'
  return { code: 'not allowed', field: 'soldOn', got: dayOf(soldAt, timeZone), next }
}

/** The day on which an instant falls in that zone, as `2026-03-04`. */
export function dayOf(at: string, timeZone: string): string {
  const { year, month, day } = localParts(new Date(at), timeZone)
  return `${year}-${month}-${day}`
}

/**
 * Takes instants from one zone to another: a day (noon in the old zone) becomes noon of the same day in the new one,
 * so that it is shown as that day again; any other instant stays.
 */
export function sameDayIn(from: string, to: string): (at: string) => string {
  return (at) => {
    const day = dayOf(at, from)
    return noonOf(day, from) === at ? noonOf(day, to) : at
  }
}

/** Noon of a day (`2026-03-04`) in that zone as an instant. */
function noonOf(day: string, timeZone: string): string {
  const noon = Date.parse(`${day}T12:00:00Z`)
  // Zones change their clocks at night, so the offset at noon UTC is that at noon there.
  const { year, month, day: d, hour, minute } = localParts(new Date(noon), timeZone)
  return new Date(2 * noon - Date.parse(`${year}-${month}-${d}T${hour}:${minute}:00Z`)).toISOString()
}

/**
 * A day (`2026-03-04`) and a time of it (`17:30`) in that zone as an instant. A time that the clocks leave out when
 * they go forward is taken as much later.
 */
export function instantOf(day: string, time: string, timeZone: string): string {
  const wall = Date.parse(`${day}T${time}:00Z`)
  const offsetAt = (instant: number): number => {
    const { year, month, day: d, hour, minute } = localParts(new Date(instant), timeZone)
    return Date.parse(`${year}-${month}-${d}T${hour}:${minute}:00Z`) - instant
  }
  // The offset at the first guess may be that of the other side of a clock change; the second guess settles it.
  const guess = wall - offsetAt(wall)
  return new Date(wall - offsetAt(guess)).toISOString()
}

/** The time of day of an instant in that zone, as `17:30`. */
export function timeOf(at: string, timeZone: string): string {
  const { hour, minute } = localParts(new Date(at), timeZone)
  return `${hour}:${minute}`
}

/** Noon of the day so many months after the day of an instant; a day that month does not have is its last one. */
export function monthsAfter(at: string, months: number, timeZone: string): string {
  const [y = 0, m = 1, d = 1] = dayOf(at, timeZone).split('-').map(Number)
  const last = new Date(Date.UTC(y, m + months, 0)).getUTCDate()
  const day = new Date(Date.UTC(y, m - 1 + months, Math.min(d, last)))
  return noonOf(day.toISOString().slice(0, 10), timeZone)
}

const formats = new Map<string, Intl.DateTimeFormat>()

function localParts(
  at: Date,
  timeZone: string,
): Record<'year' | 'month' | 'day' | 'hour' | 'minute', string> {
  let format = formats.get(timeZone)
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    })
    formats.set(timeZone, format)
  }
  const parts = new Map(format.formatToParts(at).map((part) => [part.type, part.value]))
  const of = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? ''
  return { year: of('year'), month: of('month'), day: of('day'), hour: of('hour'), minute: of('minute') }
}

/** Days by the calendar on the shop's wall, whatever the hour; never below 0. */
export const daysSince = (at: string, now: string, timeZone: string): number =>
  Math.max(0, Math.round((Date.parse(dayOf(now, timeZone)) - Date.parse(dayOf(at, timeZone))) / DAY_MS))
