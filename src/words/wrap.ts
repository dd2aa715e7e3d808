const HARD_SPACES = /[\u00a0\u202f]/g

/** Text to be searched and copied, where nothing wraps any more. */
export const plainSpaces = (text: string): string => text.replace(HARD_SPACES, ' ')

/**
 * What a line end must not part: a name and the figure in it ("Broadside 12G"), a house or place and its number, a month and its
 * day, a day and its year, and a count of slots.
 */
export const heldTogether = (text: string): string =>
  text
    .replace(/(?<=\p{Lu}[\p{L}-]*) (?=\d)/gu, '\u00a0')
    .replace(/(?<=(?:^|[\s,])\d{1,4}) (?=\p{Lu}\p{Ll})/gu, '\u00a0')
    .replace(/(?<=\d,) (?=(?:19|20)\d\d\b)/g, '\u00a0')
    .replace(/(?<=\d) (?=slots?\b|Steckpl)/g, '\u00a0')

/** Width of the text part of a mail; replies quote it, so it stays below 78 (RFC 5322, 2.1.1). */
export const TEXT_COLUMNS = 72

const isAddress = (word: string): boolean => /^[("“]?(https?:|mailto:)/.test(word)

/** A word too long for a line is cut, unless it is an address, which would no longer work. */
function cut(word: string, room: number): string[] {
  const letters = [...word]
  if (letters.length <= room || isAddress(word)) return [word]
  return Array.from({ length: Math.ceil(letters.length / room) }, (_, i) =>
    letters.slice(i * room, (i + 1) * room).join(''),
  )
}

/**
 * Wraps one paragraph at 72 columns. Hard spaces keep a figure and its unit on one line and become plain spaces
 * afterwards, so that the text can be searched and copied.
 */
export function wrap(text: string, hang = '', first = hang): string {
  const room = TEXT_COLUMNS - hang.length
  const words = heldTogether(text)
    .split(/[ \t\r\n]+/)
    .filter((w) => w !== '')
    .flatMap((w) => cut(w, room))
  const lines: string[] = []
  let line = first
  let empty = true
  for (const word of words) {
    if (!empty && [...line].length + 1 + [...word].length > TEXT_COLUMNS) {
      lines.push(line)
      line = hang
      empty = true
    }
    line += empty ? word : ` ${word}`
    empty = false
  }
  return plainSpaces([...lines, line].join('\n'))
}

/** A list item with its hanging indent. */
export const bullet = (text: string): string => wrap(text, '  ', '- ')

/** A heading with hyphens under it. */
export const heading = (text: string): string => {
  const lines = wrap(text)
  const widest = Math.max(...lines.split('\n').map((l) => [...l].length))
  return `${lines}\n${'-'.repeat(widest)}`
}
