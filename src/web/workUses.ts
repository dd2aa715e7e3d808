import type { WorkPrice } from '../core/shop.ts'
import type { Result } from '../problem.ts'
import type { WorkPricesSaved, WorkPricesView } from '../uses/workPrices.ts'

/** What the shop charges for work. */
export type WorkUses = {
  workPrices(): Promise<WorkPricesView>
  /** Fields of its problems: `prices`. */
  saveWorkPrices(prices: readonly WorkPrice[], seen?: string | undefined): Promise<Result<WorkPricesSaved>>
  /** Fields of its problems: `prices`. */
  undoWorkPrices(editId: string): Promise<Result<WorkPricesSaved>>
}
