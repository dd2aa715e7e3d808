/** Slips of the keyboard: single letters added, dropped or replaced (Levenshtein's), or two neighbours swapped. */
export function editDistance(a: string, b: string): number {
  let earlier: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, i) => i)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const swapped = isSwap ? (earlier[j - 2] ?? 0) + 1 : replaced
      next.push(Math.min(replaced, swapped, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1))
    }
    earlier = row
    row = next
  }
  return row[b.length] ?? 0
}
