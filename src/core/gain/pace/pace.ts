import { FOUR_OF_FIVE_SD } from '../noise.ts'
import type { EndWhy } from '../whyTypes.ts'

/** What holds a title back: a side, both about alike, or a cap (the engine's, or one that was set). */
export const PACE_SIDES = ['processor', 'card', 'both', 'cap'] as const
export type PaceSide = (typeof PACE_SIDES)[number]

/**
 * How sure that is. Clear from 90 % on that even a part without limits on the other side would gain less than 5 %; leaning
 * from 60 %. What the model says with 99 % held in 97 to 100 of 100 simulated machines; the middle tends to be told too low.
 */
export const PACE_CLEAR = 0.9
export const PACE_LEANING = 0.6
export type PaceSure = 'clear' | 'leaning' | 'balanced'

/** What a faster part of one kind adds: nothing at least, for it may be hardly faster. In FPS. */
export type Adds = {
  /** What a part that costs no time at all would add, as the model has it. */
  readonly ceilingFps: number
  /** The most of it in four of five cases, and what of that the display shows; equal without a display. */
  readonly mostFps: number
  readonly mostSeenFps: number
}

export type Pace = {
  readonly side: PaceSide
  readonly sure: PaceSure
  readonly nowFps: number
  /** The display shows no more than the machine makes: nothing adds anything to be seen. */
  readonly displayHides: boolean
  readonly card: Adds
  readonly processor: Adds
  /** For the page of why alone: no share ever blames a part. */
  readonly processorLimits: number
  readonly cardLimits: number
}

/**
 * Log gain of one side costing nothing, where the other is left: `ln(1 + e^(p d)) / p`, d = log of the time that goes over the
 * time that stays. It follows from `T = (A^p + B^p)^(1/p)`; never below 0.
 */
export const freedLog = (d: number, p: number): number =>
  Math.max(0, p * d) / p + Math.log1p(Math.exp(-p * Math.abs(d))) / p

/**
 * What sets the pace at an end, and what a faster card or processor would add there: from the two sides' times and what
 * is not known of them. `isCapped`: it runs at a cap; `refreshHz`: the owner's display, where it is known.
 */
export function paceOf(
  end: Pick<
    EndWhy,
    'blendFps' | 'processorMs' | 'cardMs' | 'apartSd' | 'sharpness' | 'processorLimits' | 'cardLimits'
  >,
  { isCapped, refreshHz }: { readonly isCapped: boolean; readonly refreshHz?: number | undefined },
): Pace {
  const { blendFps: nowFps, sharpness: p, apartSd, processorLimits, cardLimits } = end
  const d = Math.log(end.cardMs / end.processorMs)
  const shows = refreshHz !== undefined && refreshHz > 0 ? refreshHz : Number.POSITIVE_INFINITY
  const adds = (goes: number): Adds => {
    if (isCapped) return { ceilingFps: 0, mostFps: 0, mostSeenFps: 0 }
    const added = (log: number) => nowFps * Math.expm1(freedLog(log, p))
    const mostFps = added(goes + FOUR_OF_FIVE_SD * apartSd)
    return { ceilingFps: added(goes), mostFps, mostSeenFps: Math.min(mostFps, Math.max(0, shows - nowFps)) }
  }
  const [side, sure] = isCapped ? (['cap', 'clear'] as const) : sideOf(processorLimits, cardLimits)
  return {
    ...{ side, sure, nowFps, displayHides: nowFps >= shows },
    ...{ card: adds(d), processor: adds(-d), processorLimits, cardLimits },
  }
}

function sideOf(processorLimits: number, cardLimits: number): readonly [PaceSide, PaceSure] {
  const [side, p] =
    processorLimits >= cardLimits
      ? (['processor', processorLimits] as const)
      : (['card', cardLimits] as const)
  if (p >= PACE_CLEAR) return [side, 'clear']
  return p >= PACE_LEANING ? [side, 'leaning'] : ['both', 'balanced']
}
