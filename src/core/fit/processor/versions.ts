/** How one version stands to another. */
export type VersionOrder = 'older' | 'same' | 'newer' | 'not comparable'

/**
 * Puts firmware version `have` in order against `need`, by components: runs of digits compare as numbers (1.60 is
 * newer than 1.20, F13 than F4), everything between them must be equal. The first pair of numbers that differs
 * decides. A further `.number` makes a version newer unless it is zero; any other tail, such as the letter of a test
 * version (F13a), and any other difference is "not comparable": makers write versions as they like.
 */
export function compareVersions(have: string, need: string): VersionOrder {
  const [a, b] = [componentsOf(have), componentsOf(need)]
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [left = '', right = ''] = [a[i], b[i]]
    if (left === right) continue
    if (!isNumber(left) || !isNumber(right)) return 'not comparable'
    const [l, r] = [BigInt(left), BigInt(right)]
    if (l !== r) return l < r ? 'older' : 'newer'
  }
  if (a.length === b.length) return 'same'
  const tail = a.length > b.length ? a.slice(b.length) : b.slice(a.length)
  if (!/^(\.\d+)+$/.test(tail.join(''))) return 'not comparable'
  if (tail.every((part) => part === '.' || BigInt(part) === 0n)) return 'same'
  return a.length > b.length ? 'newer' : 'older'
}

const isNumber = (part: string): boolean => /^\d+$/.test(part)

const componentsOf = (version: string): string[] =>
  version
    .trim()
    .toLowerCase()
    .replace(/^v(?=\d)/, '')
    .match(/\d+|\D+/g) ?? []
