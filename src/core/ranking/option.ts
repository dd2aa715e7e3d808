import type { Change } from '../build.ts'
import type { Finding } from '../fit/finding.ts'
import type { Grade, TitleGain } from '../gain/gain.ts'
import type { LimitKey } from '../limits/limit.ts'
import type { Minor } from '../money.ts'
import type { Verdict } from '../verdict.ts'

/** One line of a price; all lines add up to the net. Credits are negative. */
export type PriceLine = {
  readonly what: 'part' | 'opening' | 'fee' | 'fitting' | 'work' | 'trade-in' | 'tax'
  /** Part id for parts, fitting and trade-ins; work id for work. */
  readonly ref: string
  readonly shelfItemId?: string | undefined
  readonly amountMinor: Minor
  readonly minutes?: number | undefined
  /** Tax on this line, rounded by itself: part of the line of tax or, where prices hold it, of `amountMinor`. Absent: not taxed. */
  readonly taxMinor?: Minor | undefined
}

export type NetPrice = {
  readonly lines: readonly PriceLine[]
  readonly netMinor: Minor
  /** A trade-in is worth at least as much as all the rest. Net of zero or below is never a divisor. */
  readonly paysForItself: boolean
  /** Net of zero with nothing in exchange, and everything priced: free work. Not to be called paying for itself. */
  readonly costsNothing: boolean
  /** Works of the change that the shop has not priced; their lines say 0, which is not their price. */
  readonly unpriced: readonly string[]
  /** The rate, where anything is taxed. */
  readonly taxBp?: number | undefined
  /** The tax that the net holds already; absent where tax is added in a line of its own, or where there is none. */
  readonly taxIncludedMinor?: Minor | undefined
  /** The rate by which a credit lowers the added tax; absent where it does not. */
  readonly creditTaxBp?: number | undefined
}

/** The useful gain over the owner's titles together. */
export type UsefulGain = {
  /** Weighted geometric mean over the titles with a number, capped by the display; percent. */
  readonly pct: number
  readonly pctLow: number
  readonly pctHigh: number
  /** The same without the display's cap. */
  readonly uncappedPct: number
  /** The lowest grade among the titles that count. */
  readonly grade: Grade
  readonly countedTitleIds: readonly string[]
  /** Without a number, or with one whose repeats disagree. */
  readonly missingTitleIds: readonly string[]
}

/** A change with everything it needs, its price and its gain. */
export type Option = {
  /** Sorted shelf item ids and works joined by `+`; unique within a ranking and stable between runs. */
  readonly id: string
  readonly change: Change
  readonly shelfItemIds: readonly string[]
  /** Parts added only because a rule demanded them. */
  readonly companionPartIds: readonly string[]
  readonly verdict: Verdict
  readonly findings: readonly Finding[]
  readonly price: NetPrice
  readonly gains: readonly TitleGain[]
  /** Absent when no title has a number: then the option is listed, not ranked. So is one whose own work has no price. */
  readonly useful?: UsefulGain | undefined
  /** Useful percent for 100 major units of money; absent without a gain or where the net price is 0 or below. */
  readonly pctPer100?: number | undefined
  readonly withinBudget: boolean
  /** Titles that run at the target after the change, see isAtTarget. */
  readonly titlesAtTarget: number
  /** Useful gain reaches the shop's smallest gain worth the visit. */
  readonly worthTheVisit: boolean
  /**
   * Of an option that needs a fact: the cheapest way that needs none, with new companions in place of the parts that the
   * missing facts are about. It is told beside it and never ranked. Absent where the shelf has no such way.
   */
  readonly surely?: Option | undefined
}

/** Something from the shelf that does not go into this machine, alone or with companions, and why. */
export type RuledOut = {
  readonly shelfItemId: string
  readonly partId: string
  readonly verdict: Verdict
  /** Findings with that verdict or with a demand for another part; none where a wish alone excludes it. */
  readonly findings: readonly Finding[]
  /** The owner's wish that excludes the item, or the only companions it could have. */
  readonly wish?: string | undefined
  /** Kinds a rule demanded and for which the shelf has nothing that would do. */
  readonly lacking: readonly string[]
}

/** Work that may be worth doing; first somebody has to look whether there is anything to do. */
export type CheckFirst = {
  /** What the work would be worth if there is. */
  readonly option: Option
  /** What to look at. */
  readonly limits: readonly LimitKey[]
}

export type Ranking = {
  /**
   * Options with a number. Those that count more of the owner's titles (by weight) come first: gains over different
   * titles are not compared. Within the same titles: what costs nothing or pays for itself, by gain; then best gain per
   * money; then what gains nothing. Ties share a group.
   */
  readonly ranked: readonly Option[]
  /**
   * Option ids that cannot be told apart from the first of their group; every ranked option is in one group, alone
   * where it has no tie; groups in order of `ranked`.
   */
  readonly groups: readonly (readonly string[])[]
  /**
   * Fits, but no title has a number: listed with the run that would help, for parts that are in no ranked option of their
   * own. And every work to do that has no number or no price.
   */
  readonly withoutNumber: readonly Option[]
  /** One missing fact decides: `can't tell` options of parts that fit in no other way, largest gain first. */
  readonly needsAFact: readonly Option[]
  readonly ruledOut: readonly RuledOut[]
  /** Work whose state nobody knows, never ranked and never claimed; largest gain first. */
  readonly checkFirst: readonly CheckFirst[]
  /**
   * Ids of the picks; absent when nothing qualifies. Doing nothing is an honest answer. Every pick is worth the visit
   * and has a useful gain whose interval lies above 0.
   */
  readonly bestPerMoneyId?: string | undefined
  /** The largest useful gain that the budget pays for; absent without a budget. */
  readonly bestInBudgetId?: string | undefined
  /**
   * The cheapest that brings all titles to the target; if none does, the cheapest that brings the most,
   * when that is more than today. Absent when all are there already.
   */
  readonly cheapestToTargetId?: string | undefined
  /** Steps of the cost/gain frontier, cheapest first: one frontier for each set of counted titles, merged by price. */
  readonly frontierIds: readonly string[]
  /**
   * Steps of the frontier of lower ends, cheapest first: what gains most in the worse of four cases in five. Absent in answers
   * kept before bundles were searched.
   */
  readonly cautiousIds?: readonly string[] | undefined
  /** Today, in the owner's titles. */
  readonly today: readonly TitleGain[]
  readonly titlesAtTargetToday: number
}
