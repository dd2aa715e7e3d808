import type { MatchAsk } from '../core/matching/ask.ts'
import type { Result } from '../problem.ts'
import type { DemandQuery, DemandView } from '../uses/matching/demand.ts'
import type { MatchingsView, MatchingView } from '../uses/matching/matching.ts'

/** Sharing the shelf out among past customers. */
export type OffersUses = {
  matchings(): Promise<MatchingsView>
  /** Begins one; fields of its problems: `items.N.itemId`. */
  askMatching(ask: MatchAsk): Promise<Result<{ readonly id: string }>>
  matching(id: string): Promise<Result<MatchingView>>
  callOffMatching(id: string): Promise<void>
  forgetMatching(id: string): Promise<Result<{ readonly id: string }>>
  /** Begins to work out who could take one part; fields of its problems: `of`. */
  askDemand(query: DemandQuery): Promise<Result<{ readonly id: string }>>
  demand(id: string): Promise<Result<DemandView>>
  callOffDemand(id: string): Promise<void>
  forgetDemand(id: string): Promise<Result<{ readonly id: string }>>
}
