import type { WidthStep } from '../core/gain/reliability/widthSteps.ts'
import type { Result } from '../problem.ts'
import type { OfFit } from '../uses/gain/keptFit.ts'
import type { ModelCardView } from '../uses/measure/modelCard.ts'
import type { NextRunsNow } from '../uses/measure/nextRuns.ts'
import type { PromisesView } from '../uses/measure/promises.ts'

/** What the pages about the shop's own measurements ask for. */
export type MeasureUses = {
  /** As it was last worked out, at once. */
  nextRuns(): Promise<NextRunsNow>
  promises(): Promise<PromisesView>
  /** Puts the proposed width of intervals into force, as it was looked at. */
  takeWidth(
    seen: Pick<WidthStep, 'was' | 'factor'>,
    by: string | undefined,
  ): Promise<Result<Pick<WidthStep, 'factor'>>>
  /** Takes back the one that holds. */
  takeBackWidth(id: string): Promise<Result<Pick<WidthStep, 'factor'>>>
  /** How far the fit is, where it is not done soon. */
  modelCard(waitMs: number): Promise<OfFit<ModelCardView>>
}
