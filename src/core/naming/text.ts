import type { NamingRule, Piece } from './understood.ts'

/** Left and right end of a word or figure: no letter or digit beyond it. For patterns with the flags `iu`. */
export const LEFT = '(?<![\\p{L}\\p{N}])'
export const RIGHT = '(?![\\p{L}\\p{N}])'

/**
 * The same text with one kind of dash, space and times sign and without trade marks. Its length stays, so a place in
 * it is the same place in the text as typed.
 */
export const plain = (words: string): string =>
  words
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/\s/g, ' ')
    .replace(/[×✕]/g, 'x')
    .replace(/(?<=\d ?)\*(?= ?\d)/g, 'x')
    .replace(/[µμ]/g, 'u')
    .replace(/\((?:r|tm|c)\)|[®™]/gi, (mark) => ' '.repeat(mark.length))

const DOUBT =
  /\?|~|(?<![\p{L}\p{N}])(?:maybe|perhaps|probably|possibly|presumably|guess|unsure|think|or|not|unlike|unknown|instead)(?![\p{L}\p{N}])/iu

/** Whether the writer was not sure, or names what it is not: nothing is read from such a text. */
export const isDoubtful = (text: string): boolean => DOUBT.test(text)

/** A match with its place in the text. */
export type Found = {
  readonly groups: readonly (string | undefined)[]
  readonly at: number
  readonly end: number
}

export function findAll(text: string, pattern: string): Found[] {
  return [...text.matchAll(new RegExp(pattern, 'giu'))].map((match) => ({
    groups: [...match],
    at: match.index,
    end: match.index + match[0].length,
  }))
}

/** The text with the places taken by spaces, so that no other reading finds them. */
export const blank = (text: string, taken: readonly Pick<Found, 'at' | 'end'>[]): string =>
  taken.reduce((left, { at, end }) => left.slice(0, at) + ' '.repeat(end - at) + left.slice(end), text)

export const pieceOf = <V>(
  text: string,
  { at, end }: Pick<Found, 'at' | 'end'>,
  value: V,
  source: NamingRule = 'common practice',
): Piece<V> => {
  const piece = text.slice(at, end)
  return { value, at: at + piece.length - piece.trimStart().length, from: piece.trim(), source }
}

/** `isClear` is false for one of a range or choice (`500-550 W`, `4/8 GB`) and for a side of a box (`267 x 120 mm`). */
export type Figure = Found & { readonly value: number; readonly isClear: boolean }

const CHOICE_BEFORE = /\d *(?:mm|gb?|tb?|w)? *[x/-] *$/i
const CHOICE_BEHIND = /^ *[-/x] *\d/i
const PER_SECOND = /^ *\/ *s/i

/**
 * Figures with that unit, such as `550 W`. A rate (`6 GB/s`) is none.
 * @param unit alternatives of a pattern, such as `w|watts?`
 */
export function figuresIn(text: string, unit: string): Figure[] {
  return findAll(text, `${LEFT}(?<![.,])(\\d{1,5}(?:[.,]\\d{1,2})?)[ -]*(?:${unit})${RIGHT}`)
    .filter(({ end }) => !PER_SECOND.test(text.slice(end)))
    .map((found) => ({
      ...found,
      value: Number(found.groups[1]?.replace(',', '.')),
      isClear: !CHOICE_BEFORE.test(text.slice(0, found.at)) && !CHOICE_BEHIND.test(text.slice(found.end)),
    }))
}

/** The figure that all of them give, when it is within the bounds; a second value or a choice leaves it open. */
export function theFigure(figures: readonly Figure[], least: number, most: number): Figure | undefined {
  const [first] = figures
  if (first === undefined || figures.some((f) => !f.isClear || f.value !== first.value)) return undefined
  return first.value >= least && first.value <= most ? first : undefined
}
