import type { Minor } from './money.ts'
import type { Part, PartKind } from './part.ts'

/** A title the owner plays, at the setting that counts, with its share in the useful gain. */
export type Wanted = {
  readonly titleId: string
  readonly settingId: string
  /** Positive; weights need not add up to 1. */
  readonly weight: number
}

/** What the owner sees: refresh rate caps what a gain is good for. Absent = unknown, so nothing is capped. */
export type Display = {
  readonly widthPx?: number | undefined
  readonly heightPx?: number | undefined
  readonly refreshHz?: number | undefined
}

export const WISHES = [
  'keep the case',
  'no used parts',
  'no used supply',
  'no untested parts',
  'only with warranty',
  'quiet',
  'more space',
] as const
export type Wish = (typeof WISHES)[number]

/** What kind of question it is; the first is what somebody asks who names nothing in particular. */
export const ASKS = [
  'what can I do',
  'can I put this in',
  'will it run this',
  'something is wrong',
  'next system version',
] as const
export type Ask = (typeof ASKS)[number]

/** What bothers an owner who asks for no part; work is looked at first. */
export const COMPLAINTS = ['slow', 'hot', 'loud'] as const
export type Complaint = (typeof COMPLAINTS)[number]

/** How a question came. */
export const CHANNELS = ['mail', 'chat', 'phone', 'in person', 'owner page'] as const
export type Channel = (typeof CHANNELS)[number]

/** A part the owner could get elsewhere: as typed, with the owner's own price. */
export type PartInMind = {
  readonly kind: PartKind
  /** As the owner wrote it; a known part's name or key stands for that part. */
  readonly words: string
  readonly priceMinor?: Minor | undefined
  /** Figures the owner or builder knows of it, beside what its name tells. */
  readonly part?: Part | undefined
  /** `exact`: the words are its whole model, so the shop can look it up. Absent: nobody asked yet. */
  readonly model?: 'exact' | 'not known' | undefined
}

/** A past buyer's request, as the ranking reads it. */
export type Question = {
  readonly id: string
  readonly machineTag: string
  /** The owner's own words; the headline of page and mail. */
  readonly words: string
  /** ISO 8601 UTC. */
  readonly askedAt: string
  readonly wanted: readonly Wanted[]
  readonly display: Display
  /** Average FPS wanted in each title; 60 when the owner gave none. */
  readonly targetFps: number
  readonly budgetMinor?: Minor | undefined
  readonly wishes: readonly Wish[]
  /** The least that a drive should hold, for the wish for more space; without that wish it counts for nothing. */
  readonly spaceGB?: number | undefined
  /** Absent: what can I do. */
  readonly asks?: Ask | undefined
  readonly cameBy?: Channel | undefined
  readonly complaint?: Complaint | undefined
  readonly partInMind?: PartInMind | undefined
  /** A display the owner means to buy; the gain then counts for that one. */
  readonly plannedDisplay?: Display | undefined
}

/** The display that counts for what the owner can see: the planned one where there is one. */
export const displayOf = ({
  display,
  plannedDisplay,
}: Pick<Question, 'display' | 'plannedDisplay'>): Display => plannedDisplay ?? display

/** Wanted frame rate when the owner names none. */
export const TARGET_FPS_DEFAULT = 60
