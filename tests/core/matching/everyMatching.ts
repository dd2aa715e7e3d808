import { scaleOf, type Table, weightOf } from '../../../src/core/matching/table.ts'

/** The largest worth of any matching, by trying them all. */
export function bestOfAll(table: Table): number {
  const { customers, items, values, places, waited } = table
  const scale = scaleOf(table)
  const left = [...places]
  const from = (i: number): number => {
    if (i === customers) return 0
    let best = from(i + 1)
    for (let j = 0; j < items; j++) {
      const value = values[i * items + j] as number
      if (value === 0 || (left[j] as number) === 0) continue
      left[j] = (left[j] as number) - 1
      best = Math.max(best, weightOf(value, waited?.[i] ?? 0, scale) + from(i + 1))
      left[j] = (left[j] as number) + 1
    }
    return best
  }
  return from(0)
}
