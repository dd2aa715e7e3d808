import { blank, findAll } from './text.ts'
import type { Piece } from './understood.ts'

/** Said on many boxes and no figure of the part: efficiency badge, module names that repeat size and rate. */
const SAID_ANYWAY = `80 *(?:plus|\\+)|pc[345]l?-?\\d{4,5}`

const UNITS = `w|watts?|mm|cm|gb|tb|gigs?|mhz|ghz|mt/s|pins?|slots?|sticks?|modules?|cores?`
/** A word with a digit in it, with the unit behind it. */
const TOKEN = `[^\\s,;()\\[\\]"']*\\d[^\\s,;()\\[\\]"']*(?: +(?:${UNITS})(?![\\p{L}\\p{N}]))?`

/**
 * What of a name looks like a figure and was not read, in order, each once. Words without a digit are left out; so is
 * what only repeats a figure that was read: the total of a kit, a second mention.
 *
 * @param text the name, as the readers saw it
 */
export function unreadOf(text: string, pieces: readonly Piece<unknown>[], totalGB?: number): string[] {
  const read = pieces.map(({ at, from }) => ({ at, end: at + from.length }))
  const left = blank(text, [...read, ...findAll(text, SAID_ANYWAY)])
  const tokens = findAll(left, TOKEN).flatMap(({ groups: [token = ''] }) => {
    const bare = token.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '')
    const isRepeated =
      pieces.some(({ from }) => from.toLowerCase().includes(bare.toLowerCase())) ||
      (totalGB !== undefined && new RegExp(`^${totalGB} *(?:gb?|gigs?)$`, 'i').test(bare))
    return isRepeated ? [] : [bare]
  })
  return [...new Set(tokens)]
}
