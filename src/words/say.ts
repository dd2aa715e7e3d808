import { withoutTurns } from '../core/direction.ts'

/** Sentences as data: a line has holes such as `{title}`; a line that counts has one form for each plural category. */
export type Forms = Partial<Record<Intl.LDMLPluralRule, string>> & { readonly other: string }

export type Filling = Readonly<Record<string, string>>

/** A piece of a sentence; the strong ones are what a reader in a hurry looks for. */
export type Piece = { readonly text: string; readonly strong: boolean }

const HOLE = /\{(\w+)\}/g

/**
 * Fills the holes of a line. What is put in is never read again as a line, so a game called `{price}` stays that.
 * Throws when a hole has no value: that is a slip in a word table, never a person's.
 */
export function fill(line: string, values: Filling): string {
  return line.replace(HOLE, (_, name: string) => {
    const value = values[name]
    if (value === undefined) throw new RangeError(`no value for {${name}} in "${line}"`)
    return value
  })
}

/** The same, with `**strong**` marks of the line (never of a value) kept as pieces. */
export function fillPieces(line: string, values: Filling): readonly Piece[] {
  return line
    .split('**')
    .map((text, i) => ({ text: fill(text, values), strong: i % 2 === 1 }))
    .filter((piece) => piece.text !== '')
}

export const joinPieces = (pieces: readonly Piece[]): string => pieces.map((p) => p.text).join('')

/** The form of a counting line for n in that language (CLDR plural rules). */
export const formOf = (forms: Forms, n: number, rules: Intl.PluralRules): string =>
  forms[rules.select(n)] ?? forms.other

const CONTROLS = /[\p{Cc}\p{Zl}\p{Zp}]+/gu

/** Text from outside on one line: no line breaks, control or direction marks. */
export const oneLine = (text: string): string =>
  withoutTurns(text).replace(CONTROLS, ' ').replace(/ {2,}/g, ' ').trim()

/** Free text of a person as paragraphs: an empty line parts them. */
export const paragraphsOf = (text: string | undefined): readonly string[] =>
  (text ?? '')
    .split(/\r?\n\s*\r?\n/)
    .map(oneLine)
    .filter((p) => p !== '')

/** First letter in the language's upper case. */
export const capital = (text: string, lang: string): string => {
  const [first = '', ...rest] = text
  return first.toLocaleUpperCase(lang) + rest.join('')
}

/** Straight apostrophes inside words as a mail is set: "can't" -> "can’t". */
export const curly = (text: string): string => text.replace(/(?<=\p{L})'(?=\p{L})/gu, '’')
