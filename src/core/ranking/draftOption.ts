import { minorPerMajor } from '../currency.ts'
import { byText } from '../gain/cellOf.ts'
import type { TitleGain } from '../gain/gain.ts'
import { MAY_REACH, REACHED, reaches } from '../gain/targets.ts'
import { isPromised, usefulGain } from '../gain/useful.ts'
import type { Question } from '../question.ts'
import type { ShopPolicy } from '../shop.ts'
import type { Draft } from './companions.ts'
import type { Option } from './option.ts'

/** Swallows the last digit of a mean of frame rates: 60 FPS measured is 60 FPS reached. */
const FPS_ROUNDING = 1e-9

export const reachesTarget = (fps: number, targetFps: number): boolean => fps >= targetFps - FPS_ROUNDING

/**
 * Whether a title runs at the target after a change: with a probability of four in five where the model tells the
 * spread of that frame rate, else by its mean. A title without a number, or that is run again first, does not: unknown is
 * never fine, also where today's figure is already there.
 */
export const isAtTarget = (gain: TitleGain, targetFps: number): boolean =>
  isPromised(gain) &&
  (gain.sdAfter === undefined
    ? reachesTarget(gain.after.averageFps, targetFps)
    : (reaches(gain, targetFps)?.after ?? 0) >= REACHED)

/** Too near the target to say; never so where no spread is known. */
export const mayReach = (gain: TitleGain, targetFps: number): boolean =>
  isPromised(gain) &&
  gain.sdAfter !== undefined &&
  !isAtTarget(gain, targetFps) &&
  (reaches(gain, targetFps)?.after ?? 0) >= MAY_REACH

/** Titles that run at the owner's target after a change. */
export const titlesAtTarget = (gains: readonly TitleGain[], { targetFps }: Question): number =>
  gains.filter((gain) => isAtTarget(gain, targetFps)).length

/** A draft with its gains, and what follows from them. `gains` in the order of the owner's titles. */
export function optionOf(
  draft: Draft,
  gains: readonly TitleGain[],
  question: Question,
  policy: ShopPolicy,
): Option {
  const { id, change, companions, judged, price } = draft
  const { netMinor } = price
  const useful = usefulGain(gains, question)
  const pctPer100 =
    useful === undefined || netMinor <= 0
      ? undefined
      : (useful.pct * 100 * minorPerMajor(policy.currency)) / netMinor
  return {
    id,
    change,
    shelfItemIds: [...draft.base.offers, ...companions].map(({ item }) => item.id).sort(byText),
    companionPartIds: companions.map(({ part }) => part.id),
    verdict: judged.verdict,
    findings: judged.findings,
    price,
    gains,
    useful,
    pctPer100,
    withinBudget: question.budgetMinor === undefined || netMinor <= question.budgetMinor,
    titlesAtTarget: titlesAtTarget(gains, question),
    worthTheVisit: useful !== undefined && useful.pct >= policy.smallestGainPct,
  }
}

/** Kinds of new part: how much is changed in the machine. */
export const changedKindCount = ({ change }: Option): number => new Set(change.add.map((p) => p.kind)).size
