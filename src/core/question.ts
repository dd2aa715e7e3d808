import type { Minor } from './money.ts'

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

export const WISHES = ['keep the case', 'no used parts', 'no used supply'] as const
export type Wish = (typeof WISHES)[number]

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
}

/** Wanted frame rate when the owner names none. */
export const TARGET_FPS_DEFAULT = 60
