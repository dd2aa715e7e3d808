import type { Result } from '../problem.ts'
import type { FindableEdit, FindableView, OneFindableView } from '../uses/findable.ts'
import type { HuntNow } from '../uses/hunt.ts'
import type { WhyNotAsk, WhyNotView } from '../uses/whyNot.ts'

/** Parts that could be bought, and prices with their age. */
export type FindableUses = {
  findable(): Promise<FindableView>
  oneFindable(id: string): Promise<Result<OneFindableView>>
  /** Fields of its problems: `partName highMinor at`. */
  saveFindable(edit: FindableEdit): Promise<Result<{ readonly id: string }>>
  /** It can be brought back. */
  removeFindable(id: string): Promise<Result<{ readonly id: string }>>
  bringBackFindable(id: string): Promise<Result<{ readonly id: string }>>
  /** What to hunt for, as last worked out; the first one is waited for so long, then it tells how far it is. */
  hunt(waitMs: number): Promise<HuntNow>
  /** Where a part stands for a question; without an ask what could be asked about. Fields of its problems: `part`. */
  whyNot(questionId: string, ask: WhyNotAsk | undefined, waitMs?: number): Promise<Result<WhyNotView>>
}
