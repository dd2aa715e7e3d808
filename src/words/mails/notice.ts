import type { Item, Letter, LetterEdits, PriceRow } from '../answer/letter.ts'
import { oneLine, paragraphsOf } from '../say.ts'
import { plainSpaces } from '../wrap.ts'

/** A piece of a mail with its heading. */
export type Block =
  | { readonly is: 'says'; readonly head?: string | undefined; readonly says: readonly string[] }
  /** Somebody's own words. */
  | { readonly is: 'quote'; readonly head: string; readonly words: string }
  | {
      readonly is: 'facts'
      readonly head: string
      readonly rows: readonly { readonly label: string; readonly text: string }[]
    }
  /** What to do, or to beware of. */
  | {
      readonly is: 'orders'
      readonly head: string
      readonly lead?: readonly string[] | undefined
      readonly rows: readonly string[]
      readonly end?: string | undefined
    }
  | { readonly is: 'pick'; readonly pick: NonNullable<Letter['pick']> }
  | { readonly is: 'games'; readonly games: NonNullable<Letter['games']> }
  | {
      readonly is: 'price'
      readonly head: string
      readonly rows: readonly PriceRow[]
      readonly notes: readonly string[]
    }
  | {
      readonly is: 'items'
      readonly head: string
      readonly items: readonly Item[]
      readonly more: readonly string[]
    }
  | {
      readonly is: 'known'
      readonly head: string
      readonly grades: readonly { readonly word: string; readonly says: string }[]
      readonly more: readonly string[]
    }

/**
 * A mail as it is read: plain data in reading order, every figure formatted. HTML and text are made from it. The
 * answer and the limits sheet have forms of their own, all other mails are notices.
 */
export type Notice = {
  /** BCP 47 tag of the words. */
  readonly lang: string
  readonly subject: string
  readonly preheader: string
  readonly shopName: string
  /** The machine it is about; absent where it is about a person alone. */
  readonly tag?: string | undefined
  readonly masthead: string
  readonly greeting: string
  /** The builder's own words; never rewritten. */
  readonly opening: readonly string[]
  /** The news in one sentence, and what follows at once. */
  readonly lead: { readonly answer: string; readonly more: readonly string[] }
  readonly reply: {
    readonly words: string
    readonly href: string
    readonly note: string
    /** In place of button and note, where there is only text. */
    readonly text: string
  }
  readonly blocks: readonly Block[]
  readonly closing: readonly string[]
  readonly sign: readonly string[]
  readonly foot: {
    readonly why: string
    /** Not in the text part, which cannot load anything. */
    readonly loads: string
    readonly who: readonly string[]
    /** How to get no more of these; offers have it. */
    readonly optOut?:
      | { readonly says: string; readonly words: string; readonly href: string; readonly text: string }
      | undefined
  }
}

/** What a person may change of a notice: its figures are not among it. */
export type NoticeEdits = Omit<LetterEdits, 'pickId'>

/** The notice in a person's own words around its figures; what they left alone stays as it was proposed. */
export const editedNotice = (notice: Notice, { subject, opening, closing }: NoticeEdits): Notice => ({
  ...notice,
  ...(subject !== undefined && { subject: plainSpaces(oneLine(subject)) }),
  ...(opening !== undefined && { opening: paragraphsOf(opening) }),
  ...(closing !== undefined && { closing: paragraphsOf(closing) }),
})
