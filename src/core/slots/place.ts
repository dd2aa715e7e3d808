import type { LimitKey, Limits, LimitValues } from '../limits/limit.ts'

/** How a place stands. Only what is known to be empty is free; the rest is somebody's to look at. */
export type PlaceState = 'taken' | 'free' | "can't tell"

/** The value of a limit, where it is known. */
export function known<K extends LimitKey>(limits: Limits, key: K): LimitValues[K] | undefined {
  const limit = limits[key]
  return limit.known ? (limit.value as LimitValues[K]) : undefined
}

/** A count that can be drawn: whole and not negative. */
export const isCount = (n: number | undefined): n is number =>
  n !== undefined && Number.isSafeInteger(n) && n >= 0

/** So many places of one state. */
export const places = (count: number, state: PlaceState): PlaceState[] =>
  Array.from({ length: Math.max(0, count) }, () => state)
