import type { Finding, WorkId } from '../fit/finding.ts'
import type { LimitKey } from '../limits/limit.ts'
import type { Minor } from '../money.ts'
import type { Part, PartKind } from '../part.ts'
import type { Complaint } from '../question.ts'
import type { NetPrice, Option } from '../ranking/option.ts'
import type { FactSource } from '../source.ts'
import type { Verdict } from '../verdict.ts'

/** One change that the owner named, judged without titles and without runs. */
export type AskedChange = {
  /** As asked for, without what else it needs. */
  readonly verdict: Verdict
  readonly findings: readonly Finding[]
  /** Kinds of part that rules demand beside it. */
  readonly needs: readonly PartKind[]
  /** Those of them for which the shelf has nothing that would do. */
  readonly lacking: readonly PartKind[]
  /**
   * With the cheapest companions of the shelf: it fits, or only a fact is missing. Absent: no way with this shelf. Its
   * price is what the shop charges; what the owner brings along is not in it.
   */
  readonly option?: Option | undefined
}

/** Whether the shelf does better for what the part in mind would cost in all. */
export type SameMoney = {
  /** The owner's price with our work and what has to go in beside it; absent when the owner gave no price. */
  readonly spendMinor?: Minor | undefined
  /** The option of the ranking that gains most for no more than that. */
  readonly bestId?: string | undefined
  /** Why there is none. */
  readonly because?: 'no price' | 'no titles' | 'no runs' | 'nothing better' | undefined
}

/** A part that the owner can get elsewhere. */
export type PartAsked = {
  readonly ask: 'can I put this in'
  /** As it was judged: its own figures, those of the shop's record, and what its name says. */
  readonly part: Part
  /** The shop has it on record. */
  readonly isKnown: boolean
  readonly priceMinor?: Minor | undefined
  readonly change: AskedChange
  /** Our work and companions, less what is given in exchange; absent where there is no way to fit it. */
  readonly oursMinor?: Minor | undefined
  readonly sameMoney: SameMoney
  /** The same part stands on the shelf. */
  readonly onShelf?: { readonly itemId: string; readonly priceMinor: Minor } | undefined
}

/** A work that often helps with a complaint, and whether there is anything to do on this machine. */
export type WorkRoad = {
  readonly work: WorkId
  readonly state: 'to do' | 'check first' | 'nothing to do'
  /** What tells, where nobody has looked. */
  readonly limits: readonly LimitKey[]
  readonly price: NetPrice
}

/** Something is wrong: work first, then parts. */
export type ComplaintAsked = {
  readonly ask: 'something is wrong'
  readonly complaint: Complaint
  /** The likeliest first; those with nothing to do last. */
  readonly works: readonly WorkRoad[]
  /** Of each kind of part that helps with it: the cheapest of the shelf that goes in. No number stands behind them. */
  readonly parts: readonly Option[]
  readonly source: FactSource
}

export type SystemAsked = { readonly ask: 'next system version'; readonly change: AskedChange }

/** One of the owner's titles against the target. */
export type TitleAsked = {
  readonly titleId: string
  readonly settingId: string
  /** Absent: nothing was measured on these parts. */
  readonly todayFps?: number | undefined
  /** `may`: too near the target to say, see MAY_REACH. `run again`: runs disagree or do not fit, so nothing is promised. */
  readonly runsToday: 'yes' | 'may' | 'no' | 'run again' | 'not known'
  /** The cheapest option of the ranking that brings it there, where today does not. */
  readonly roadId?: string | undefined
}

export type TitlesAsked = { readonly ask: 'will it run this'; readonly titles: readonly TitleAsked[] }

/** What a question asks for by name, beside the ranking. */
export type Asked = PartAsked | ComplaintAsked | SystemAsked | TitlesAsked
