/**
 * A trade word is explained in brackets at its first use in a letter and nowhere else. A letter with more than seven
 * such words is too technical for its reader: then a finding is dropped, never a gloss.
 */
export const GLOSSES_MOST = 7

export type Gloss = { readonly words: readonly string[]; readonly gloss: string }

export type Glosser = {
  /** The text with the glosses of words that were not used before. */
  readonly add: (text: string) => string
  /** True when these texts can be glossed within the limit. */
  readonly hasRoom: (texts: readonly string[]) => boolean
  /** Counts a word that the letter explains in a sentence of its own. */
  readonly note: (word: string) => void
  readonly count: () => number
}

const patternOf = (g: Gloss): RegExp =>
  new RegExp(
    `(?<![\\p{L}\\d-])(?:${g.words.map((w) => w.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')).join('|')})(?![\\p{L}\\d-])`,
    'u',
  )

export function glosser(glosses: readonly Gloss[]): Glosser {
  const table = glosses.map((g) => ({ ...g, pattern: patternOf(g) }))
  const used = new Set<string>()
  return {
    add: (text) => {
      const found = table
        .filter((g) => !used.has(g.gloss))
        .map((g) => ({ gloss: g.gloss, match: g.pattern.exec(text) }))
        .flatMap(({ gloss, match }) => (match ? [{ gloss, end: match.index + match[0].length }] : []))
        .sort((a, b) => b.end - a.end)
      for (const { gloss } of found) used.add(gloss)
      // from the end, so that earlier places stay true; a word that is explained already by what follows it is left
      return found.reduce(
        (said, { gloss, end }) =>
          said.slice(end).startsWith(' (') ? said : `${said.slice(0, end)} (${gloss})${said.slice(end)}`,
        text,
      )
    },
    hasRoom: (texts) => {
      const needed = table.filter((g) => !used.has(g.gloss) && texts.some((t) => g.pattern.test(t)))
      return used.size + needed.length <= GLOSSES_MOST
    },
    note: (word) => used.add(word),
    count: () => used.size,
  }
}
