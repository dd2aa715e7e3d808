import type { Entry } from '../input/csv/table.ts'

/** What an import does to one table. `rows` are only those that are new or differ from what is stored. */
export type Plan<T> = {
  readonly rows: readonly T[]
  /** The table as it will be, stored rows that the file does not name included. */
  readonly after: ReadonlyMap<string, T>
  readonly added: number
  readonly changed: number
  readonly unchanged: number
}

/**
 * Compares rows of a file with what is stored under the same key. `complete` makes a whole row of what the file
 * gives and what was there; rows that the file does not name stay as they are.
 */
export function planOf<D, T>(
  entries: readonly Entry<D>[],
  stored: readonly T[],
  keyOf: (row: T) => string,
  complete: (draft: D, before: T | undefined, line: number) => T,
  keyOfDraft: (draft: D) => string,
): Plan<T> {
  const after = new Map(stored.map((row) => [keyOf(row), row]))
  const rows: T[] = []
  const count = { added: 0, changed: 0, unchanged: 0 }
  for (const { line, value } of entries) {
    const key = keyOfDraft(value)
    const before = after.get(key)
    const row = complete(value, before, line)
    if (before !== undefined && sameData(before, row)) {
      count.unchanged++
      continue
    }
    count[before === undefined ? 'added' : 'changed']++
    after.set(key, row)
    rows.push(row)
  }
  return { rows, after, ...count }
}

/** Equal as data: the order of keys and keys that are undefined do not count. */
export const sameData = (a: unknown, b: unknown): boolean =>
  JSON.stringify(sorted(a)) === JSON.stringify(sorted(b))

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, v]) => v !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([k, v]) => [k, sorted(v)]),
  )
}
