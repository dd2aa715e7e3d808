import { editDistance } from '../core/naming/slips.ts'

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
