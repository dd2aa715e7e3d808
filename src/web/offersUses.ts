import type { MatchAsk } from '../core/matching/ask.ts'
import type { Result } from '../problem.ts'
import type { DemandQuery, DemandView, MatchingsView, MatchingView } from '../uses/matching/matching.ts'

/** Sharing the shelf out among past customers. */
export type OffersUses = {
  matchings(): Promise<MatchingsView>
  /** Begins one; fields of its problems: `items.N.itemId`. */
  askMatching(ask: MatchAsk): Promise<Result<{ readonly id: string }>>
  matching(id: string): Promise<Result<MatchingView>>
  callOffMatching(id: string): Promise<void>
  forgetMatching(id: string): Promise<Result<{ readonly id: string }>>
  /** Who could take one part; fields of its problems: `of`. */
  demand(query: DemandQuery): Promise<Result<DemandView>>
}
