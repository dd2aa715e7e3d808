import type { Minor } from './money.ts'
import type { PartKind } from './part.ts'

/** The shop's own rules and prices. None of this is a published fact; pages show it as "shop policy". */
export type ShopPolicy = {
  /** ISO 4217 code. */
  readonly currency: string
  /** Share of the supply's 12 V rating that the shop counts on, 0 < share <= 1. */
  readonly supplyShare: number
  /** What the rest of a machine (board, memory, drives, fans) is taken to draw from 12 V. */
  readonly restOfMachineW: number
  /** A supply counts in full up to that age in years; from then on its share falls by so much a year. */
  readonly supplyFullYears: number
  readonly supplyLossPctPerYear: number
  /** Room temperature for which cooling is judged; absent = the hottest that the shop recorded. */
  readonly roomC?: number | undefined
  /** Kept between the predicted and the published maximum temperature. */
  readonly coolingMarginC: number
  /** Smallest useful gain that is worth a visit, in percent. Options below it are shown, never recommended. */
  readonly smallestGainPct: number
  /** How far apart in days two runs may lie to be compared as "measured". */
  readonly runWindowDays: number
  /** How long a written price holds, in days. */
  readonly priceValidDays: number
  /** Sales tax in basis points, hundredths of a percent; absent or 0 = none. */
  readonly salesTaxBp?: number | undefined
  /** The shop's prices hold the tax already; else it is added. */
  readonly taxIncluded?: boolean | undefined
  /** Labour and fee are taxed as parts are. */
  readonly taxOnWork?: boolean | undefined
  /** What a part that comes out is worth is taken off before tax. */
  readonly tradeInsLowerTax?: boolean | undefined
  /** A price that was set or seen longer ago is marked as old; absent = PRICE_STALE_DAYS. */
  readonly priceStaleDays?: number | undefined
  /** A machine counts as quiet up to that level, in dB(A) at one metre under load; absent = nobody said, so only its own level counts. */
  readonly quietDba?: number | undefined
}

/** What a shop starts with: older prices of used parts have often moved (common practice; the shop sets its own). */
export const PRICE_STALE_DAYS = 60

/** Work the shop prices: opening a machine once, fitting a part of a kind, and the works that rules ask for. */
export type WorkPrice = {
  /** `opening`, `fit processor`, ... (see fittingWork), or a WorkId. */
  readonly work: string
  readonly minutes: number
  readonly priceMinor: Minor
}

/** Charged once a job, whenever hands go in. */
export const OPENING_WORK = 'opening'

/** A fixed fee of the shop, charged where opening is, in a line of its own. It takes no time. */
export const FEE_WORK = 'fee'

/** The work of fitting a part of that kind, as work.csv names it. */
export const fittingWork = (kind: PartKind): string => `fit ${kind}`

/** What the shop pays for a part that comes out. */
export type TradeIn = { readonly partId: string; readonly creditMinor: Minor; readonly at: string }

/** Best first. `used` alone: nobody said whether it was tested, so it does not count as tested. */
export const CONDITIONS = ['new', 'open box', 'used tested', 'used untested', 'used'] as const
export type Condition = (typeof CONDITIONS)[number]

/** Whether somebody ran a machine with it before. An open box is not used. */
export const isUsed = (condition: Condition): boolean => condition.startsWith('used')

/** Whether it is known to work: new as its maker tested it, or tested by the shop. */
export const isTested = (condition: Condition): boolean => !isUsed(condition) || condition === 'used tested'

/** Something the shop can sell now. */
export type ShelfItem = {
  readonly id: string
  readonly partId: string
  readonly condition: Condition
  readonly quantity: number
  readonly priceMinor: Minor
  readonly warrantyMonths?: number | undefined
  /** What ends the warranty, in the shop's words. */
  readonly warrantyEndsWith?: string | undefined
  /** When this price was set; ISO 8601 UTC. */
  readonly at: string
  readonly note?: string | undefined
}

/** A part that is not on the shelf and that the shop could buy; never ranked as if it stood there. */
export type Findable = {
  /** F-0001. */
  readonly id: string
  readonly partId: string
  readonly condition: Condition
  /** What it was seen for, low first; equal where it was one price. Not negative. */
  readonly lowMinor: Minor
  readonly highMinor: Minor
  /** When it was seen for that; ISO 8601 UTC. */
  readonly at: string
  /** The warranty that a buyer would have. */
  readonly warrantyMonths?: number | undefined
  /** Where it was seen, in the shop's words. */
  readonly place?: string | undefined
  readonly note?: string | undefined
}

/** A price of one item, and from when it held. */
export type ItemPrice = { readonly itemId: string; readonly priceMinor: Minor; readonly at: string }

/** A range that a findable part was seen for. */
export type SeenPrice = Pick<Findable, 'lowMinor' | 'highMinor' | 'at'> & { readonly findableId: string }
