/** What was used last, within bounds of count and weight; what was not used for longest goes first. */
export type UsedLately<T> = {
  readonly get: (key: string) => T | undefined
  /** It counts as used now. The newest stays, however heavy it is: whoever asked for it comes again. */
  readonly put: (key: string, value: T, weight: number) => void
  readonly size: () => number
  readonly weight: () => number
}

export function usedLately<T>(mostKept: number, mostWeight: number): UsedLately<T> {
  const kept = new Map<string, { readonly value: T; readonly weight: number }>()
  let total = 0
  const drop = (key: string) => {
    total -= kept.get(key)?.weight ?? 0
    kept.delete(key)
  }
  return {
    get: (key) => kept.get(key)?.value,
    put: (key, value, weight) => {
      drop(key)
      kept.set(key, { value, weight })
      total += weight
      for (const oldest of kept.keys()) {
        if (oldest === key || (kept.size <= mostKept && total <= mostWeight)) return
        drop(oldest)
      }
    },
    size: () => kept.size,
    weight: () => total,
  }
}
