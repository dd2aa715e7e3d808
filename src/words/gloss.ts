/**
 * A trade word is explained in brackets at its first use in a letter and nowhere else. A letter with more than seven
 * such words is too technical for its reader: then a finding is dropped, never a gloss.
 */
export const GLOSSES_MOST = 7
/** A gloss that would make its sentence longer than this waits for the word's next use. */
const SENTENCE_MOST = 22

const wordsOf = (text: string): number => text.split(/\s+/).length

/** The forms of one word, each with its explanation; the first form names it. */
export type Gloss = Readonly<Record<string, string>>

export type Glosser = {
  /** The text with the glosses of words that were not used before. */
  readonly add: (text: string) => string
  /** True when these texts can be glossed within the limit. */
  readonly hasRoom: (texts: readonly string[]) => boolean
  /** Counts a word that the letter explains in a sentence of its own. */
  readonly note: (word: string) => void
  readonly count: () => number
}

const escapePattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')

/** The word on its own: not inside a longer word, a name with a hyphen or a number. */
const patternOf = (gloss: Gloss): RegExp =>
  new RegExp(`(?<![\\p{L}\\d-])(?:${Object.keys(gloss).map(escapePattern).join('|')})(?![\\p{L}\\d-])`, 'gu')

type Row = { readonly gloss: Gloss; readonly name: string; readonly pattern: RegExp }

type Place = { readonly at: number; readonly end: number; readonly word: string }

const placesOf = ({ pattern }: Row, text: string): Place[] =>
  [...text.matchAll(pattern)].map(({ 0: word, index }) => ({ at: index, end: index + word.length, word }))

/** Where a text first uses the row's word as that word: a `module` inside `trust module` is another thing. */
function firstUse(row: Row, table: readonly Row[], text: string): Place | undefined {
  const others = table.filter((other) => other !== row).flatMap((other) => placesOf(other, text))
  const isInside = ({ at, end }: Place) =>
    others.some((o) => o.at <= at && end <= o.end && o.end - o.at > end - at)
  return placesOf(row, text).find((place) => !isInside(place))
}

export function glosser(glosses: readonly Gloss[]): Glosser {
  const table: Row[] = glosses.map((gloss) => ({
    gloss,
    name: Object.keys(gloss)[0] ?? '',
    pattern: patternOf(gloss),
  }))
  const used = new Set<string>()
  return {
    add: (text) => {
      const found = table
        .filter(({ name }) => !used.has(name))
        .flatMap((row) => {
          const place = firstUse(row, table, text)
          return place ? [{ name: row.name, says: row.gloss[place.word] ?? '', end: place.end }] : []
        })
        .sort((a, b) => a.end - b.end)
      let said = ''
      let at = 0
      let words = wordsOf(text)
      for (const { name, says, end } of found) {
        const explainedAlready = text.slice(end).startsWith(' (')
        if (explainedAlready || words + wordsOf(says) > SENTENCE_MOST) continue
        used.add(name)
        words += wordsOf(says)
        said += `${text.slice(at, end)} (${says})`
        at = end
      }
      return said + text.slice(at)
    },
    hasRoom: (texts) => {
      const needed = table.filter(
        (row) => !used.has(row.name) && texts.some((text) => firstUse(row, table, text) !== undefined),
      )
      return used.size + needed.length <= GLOSSES_MOST
    },
    note: (word) => used.add(word),
    count: () => used.size,
  }
}
