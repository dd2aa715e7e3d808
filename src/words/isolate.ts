import { withoutTurns } from '../core/direction.ts'

/**
 * Blocks of scripts that are written from right to left (Unicode, DerivedBidiClass: default R and AL), with the figures
 * of Arabic. A test holds it against the scripts that the language itself knows.
 */
const RIGHT = '\\u0590-\\u08ff\\ufb1d-\\ufdff\\ufe70-\\ufefe\\u{10800}-\\u{10fff}\\u{1e800}-\\u{1efff}'

/**
 * A name or a few words of such a script, with the figures and signs between them. Commas end it: two names in a list
 * keep the order of the list.
 */
const RUN = new RegExp(`[${RIGHT}]+(?:[\\p{N} .'’"-]+[${RIGHT}]+)*`, 'gu')

/** UAX #9, 2.7: first strong isolate, and its end. What is between them moves nothing beside them. */
const [ISOLATE, END] = ['\u2068', '\u2069']
const marked = (text: string): string => text.replace(RUN, (run) => `${ISOLATE}${run}${END}`)

/**
 * Plain text in which words from right to left stay where they were put: without it a figure behind such a name is
 * drawn in front of it. Signs that turn directions by themselves are taken out.
 */
export const isolatedText = (text: string): string => marked(withoutTurns(text))

/** Comments, tags and the text between; our own pages and frames escape ">" in attributes. */
const PIECES = /<!--[\s\S]*?-->|<(\/?)([a-z][\w:-]*)[^>]*>|[^<]+|</gi

/** What stands in these is no text of the page, or goes back to us as it is. */
const UNTOUCHED = ['script', 'style', 'textarea']
/** No element can stand in these (HTML Standard, 4.2.2, 4.10.10; SVG 2, 11.2), but signs can. */
const SIGNS_ONLY = ['title', 'option', 'svg']

function isolated(html: string, wrap: (text: string) => string): string {
  const clean = withoutTurns(html)
  if (clean.search(RUN) === -1) return clean
  let inside: string | undefined
  return clean.replace(PIECES, (piece, closes: string | undefined, tag: string | undefined) => {
    const name = tag?.toLowerCase()
    if (name !== undefined) {
      if (inside === undefined && [...UNTOUCHED, ...SIGNS_ONLY].includes(name) && closes === '') inside = name
      else if (inside === name && closes === '/') inside = undefined
      return piece
    }
    if (piece.startsWith('<') || (inside !== undefined && UNTOUCHED.includes(inside))) return piece
    return inside === undefined ? wrap(piece) : marked(piece)
  })
}

/** A page of ours, likewise, by the element that is for it (HTML Standard, 4.5.24). */
export const isolatedPage = (html: string): string =>
  isolated(html, (text) => text.replace(RUN, (run) => `<bdi>${run}</bdi>`))

/** A mail's HTML, likewise, by signs: programs that read mails drop elements that they do not know. */
export const isolatedMail = (html: string): string => isolated(html, marked)
