import type { Grade } from '../../core/gain/gain.ts'
import type { Verdict } from '../../core/verdict.ts'
import type { Piece } from '../say.ts'

/** What the builder may change. Figures are not among it: they stay bound to the answer. */
export type LetterEdits = {
  readonly subject?: string | undefined
  /** Free paragraphs before the answer; an empty line parts them. Never rewritten. */
  readonly opening?: string | undefined
  /** Free paragraphs before the sign-off. */
  readonly closing?: string | undefined
  /** The option to recommend; without it see `pickOf`. */
  readonly pickId?: string | undefined
}

export type VerdictSaid = { readonly verdict: Verdict; readonly word: string }

/** One line of a list that leads with a verdict: what it is about, why, and what then. */
export type Item = VerdictSaid & { readonly what: string; readonly says: readonly string[] }

export type PickStrip = VerdictSaid & {
  readonly what: string
  readonly reason: readonly string[]
  readonly grade?: { readonly grade: Grade; readonly word: string; readonly says: string } | undefined
  /** Figures with what they are, at most three. */
  readonly figures: readonly { readonly figure: string; readonly what: string }[]
  readonly useful: readonly string[]
}

/** Frame rates for the drawn bar; the sentence beside it says the same. */
export type Bar = {
  readonly beforeFps: number
  readonly afterFps?: number | undefined
  readonly lowFps?: number | undefined
  readonly highFps?: number | undefined
}

export type GameRow = {
  readonly title: string
  readonly says: readonly Piece[]
  readonly notes: readonly string[]
  /** Absent where there is no number, and from the ninth game on. */
  readonly bar?: Bar | undefined
}

export type PriceRow = {
  readonly what: string
  readonly note?: string | undefined
  readonly figure: string
  readonly sum: boolean
}

/**
 * The answer as it is read: plain data, every figure already formatted, in reading order. HTML, text and chat are
 * made from the same letter.
 */
export type Letter = {
  /** BCP 47 tag of the words. */
  readonly lang: string
  readonly subject: string
  readonly preheader: string
  readonly shopName: string
  readonly tag: string
  readonly masthead: string
  readonly greeting: string
  readonly asked: string
  /** The owner's own words, quoted. */
  readonly question: string
  readonly opening: readonly string[]
  readonly lead: { readonly answer: string; readonly more: readonly string[] }
  /** What a short text tells next where nothing is recommended: the sum, and what else could be done. */
  readonly inShort?: readonly string[] | undefined
  readonly pick?: PickStrip | undefined
  readonly reply: {
    readonly words: string
    readonly href: string
    readonly note: string
    readonly text: string
  }
  readonly games?:
    | {
        readonly head: string
        readonly intro: readonly string[]
        /** Explains the drawing; not in the text part. */
        readonly drawn: readonly string[]
        readonly targetFps: number
        readonly displayHz?: number | undefined
        readonly targetSays: string
        readonly displaySays?: string | undefined
        readonly rows: readonly GameRow[]
        readonly more: readonly string[]
      }
    | undefined
  readonly price?:
    | {
        readonly head: string
        readonly rows: readonly PriceRow[]
        readonly notes: readonly string[]
        /** Where the table is not shown: that old parts are taken in exchange, and the price without that. */
        readonly exchange?: string | undefined
      }
    | undefined
  readonly roads?: { readonly head: string; readonly items: readonly Item[] } | undefined
  readonly board?:
    | { readonly head: string; readonly items: readonly Item[]; readonly more: readonly string[] }
    | undefined
  readonly handsIn?:
    | {
        readonly head: string
        readonly lead: readonly string[]
        readonly itemsHead: string
        readonly items: readonly string[]
        readonly wayOut: string
      }
    | undefined
  readonly known?:
    | {
        readonly head: string
        readonly grades: readonly { readonly word: string; readonly says: string }[]
        readonly more: readonly string[]
      }
    | undefined
  /** The one thing to do now; behind everything else. */
  readonly next: { readonly head: string; readonly says: string }
  readonly closing: readonly string[]
  readonly sign: readonly string[]
  readonly foot: {
    readonly why: string
    /** Says that the mail loads nothing; not in the text part, which cannot load anything. */
    readonly loads: string
    readonly who: readonly string[]
  }
}
