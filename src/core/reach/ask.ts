import type { Fitted } from '../gain/run.ts'
import type { MatchShop } from '../matching/ask.ts'
import type { Minor } from '../money.ts'
import type { Display, Wanted } from '../question.ts'

/** A platform to plan: its parts, each with what it costs. Where a part has no price, none is counted. */
export type Platform = {
  readonly name: string
  readonly parts: readonly { readonly partId: string; readonly priceMinor?: Minor | undefined }[]
}

/** How things go on: used parts get cheaper, titles heavier. */
export type Scenario = {
  /** Percent by which parts and what is paid for old ones fall in a year; work stays. */
  readonly pricesFallPct: number
  /** Percent by which titles ask more of a card in a year; of a processor half as much (in log). */
  readonly heavierPct: number
  readonly years: number
}

export type ReachAsk = {
  readonly platforms: readonly Platform[]
  readonly wanted: readonly Wanted[]
  readonly display: Display
  readonly targetFps: number
  /** Nothing dearer is looked at. */
  readonly upToMinor: Minor
  readonly scenario: Scenario
}

export type ReachInputs = {
  readonly ask: ReachAsk
  /** The shelf is what could be put in later: what stands there and what could be bought. */
  readonly shop: MatchShop
  /** What was measured of each title at its setting, in the order of the ask: bounds count from there. Absent: nothing was. */
  readonly measured: readonly (Fitted | undefined)[]
  readonly at: string
}
