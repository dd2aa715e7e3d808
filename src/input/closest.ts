/** How many slips a name may have: a third of its letters. So no short key is near every other. */
const mostSlips = (length: number): number => Math.floor(length / 3)

/**
 * The allowed name that a mistyped one most likely meant, or undefined when none is near. Upper and lower case count as
 * equal.
 */
export function closest(typed: string, allowed: Iterable<string>): string | undefined {
  const sought = typed.toLowerCase()
  let best: string | undefined
  let least = mostSlips(sought.length) + 1
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

/** Slips of the keyboard: single letters added, dropped or replaced (Levenshtein's), or two neighbours swapped. */
function editDistance(a: string, b: string): number {
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
