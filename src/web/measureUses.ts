import type { OfFit } from '../uses/gain/keptFit.ts'
import type { ModelCardView } from '../uses/measure/modelCard.ts'
import type { NextRunsNow } from '../uses/measure/nextRuns.ts'
import type { PromisesView } from '../uses/measure/promises.ts'

/** What the pages about the shop's own measurements ask for. */
export type MeasureUses = {
  /** As it was last worked out, at once. */
  nextRuns(): Promise<NextRunsNow>
  promises(): Promise<PromisesView>
  /** How far the fit is, where it is not done soon. */
  modelCard(waitMs: number): Promise<OfFit<ModelCardView>>
}
