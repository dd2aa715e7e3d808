/**
 * The allowed name that a mistyped one most likely meant, or undefined when none is near: at most two letters (or a
 * third of them) differ. Upper and lower case count as equal.
 */
export function closest(typed: string, allowed: Iterable<string>): string | undefined {
  const sought = typed.toLowerCase()
  let best: string | undefined
  let least = Math.max(2, Math.floor(sought.length / 3)) + 1
  for (const name of allowed) {
    if (Math.abs(name.length - sought.length) >= least) continue
    const distance = editDistance(sought, name.toLowerCase())
    if (distance < least) [best, least] = [name, distance]
  }
  return best
}

/** ` Did you mean "x"?`, or nothing. */
export function didYouMean(typed: string, allowed: Iterable<string>): string {
  const name = closest(typed, allowed)
  return name === undefined ? '' : ` Did you mean "${name}"?`
}

/** Levenshtein's: single letters added, dropped or replaced. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1))
    }
    row = next
  }
  return row[b.length] ?? 0
}
