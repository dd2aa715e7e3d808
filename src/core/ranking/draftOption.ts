import { minorPerMajor } from '../currency.ts'
import { byText } from '../gain/cellOf.ts'
import type { TitleGain } from '../gain/gain.ts'
import { isSure, usefulGain } from '../gain/useful.ts'
import type { Question } from '../question.ts'
import type { ShopPolicy } from '../shop.ts'
import type { Draft } from './companions.ts'
import type { Option } from './option.ts'

/** Swallows the last digit of a mean of frame rates: 60 FPS measured is 60 FPS reached. */
const FPS_ROUNDING = 1e-9

export const reachesTarget = (fps: number, targetFps: number): boolean => fps >= targetFps - FPS_ROUNDING

/**
 * Titles whose mean frame rate is at the owner's target. A title without a number, or whose runs disagree, is not
 * counted: unknown is never fine, also where today's figure is already there.
 */
export const titlesAtTarget = (gains: readonly TitleGain[], { targetFps }: Question): number =>
  gains.filter((g) => isSure(g) && reachesTarget(g.after.averageFps, targetFps)).length

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
