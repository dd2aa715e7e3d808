/** Counts what one address does in a span of time; kept in memory, and never for more addresses than `KEPT_MAX`. */
export type Tries = {
  /** Seconds to wait, or 0; a try that has to wait does not count. */
  readonly wait: (key: string) => number
  readonly count: (key: string) => void
}

const KEPT_MAX = 10_000

export function triesWithin(spanMs: number, most: number, nowMs: () => number): Tries {
  const tries = new Map<string, number[]>()
  const recent = (key: string): number[] => (tries.get(key) ?? []).filter((ms) => nowMs() - ms < spanMs)
  return {
    wait: (key) => {
      const [first] = recent(key).slice(-most)
      return first === undefined || recent(key).length < most
        ? 0
        : Math.ceil((first + spanMs - nowMs()) / 1000)
    },
    count: (key) => {
      const kept = [...recent(key), nowMs()].slice(-most)
      // Written anew, so that the map's order is by last try and the one forgotten is the one longest quiet.
      tries.delete(key)
      tries.set(key, kept)
      for (const quiet of tries.keys()) {
        if (tries.size <= KEPT_MAX) break
        tries.delete(quiet)
      }
    },
  }
}
