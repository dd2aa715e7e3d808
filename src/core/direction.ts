/** Unicode's Bidi_Control (UAX #9, 2; UCD PropList): signs that nobody sees and that turn the direction of other text. */
const TURNS = /\p{Bidi_Control}/gu

/**
 * Text without the signs that turn its direction: they hide what a name really is, and come along unseen when text is
 * copied from a chat. Where directions meet, `words/isolate.ts` keeps them apart.
 */
export const withoutTurns = (text: string): string => text.replace(TURNS, '')

/** The first such sign as it is written in tables, such as `U+202E`; undefined where there is none. */
export function turnIn(text: string): string | undefined {
  const [sign] = text.match(TURNS) ?? []
  return sign === undefined
    ? undefined
    : `U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
}
