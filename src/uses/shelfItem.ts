import type { TradeIn } from '../core/shop.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { listShelf, type ShelfLine, shelfPricesOf } from '../store/shelf.ts'
import { listTradeIns } from '../store/work.ts'

export type ShelfItemView = ShelfLine & {
  /** Every price it had, the oldest first. */
  readonly prices: readonly { readonly at: string; readonly priceMinor: number }[]
  /** Every credit for such a part, the oldest first. */
  readonly tradeIns: readonly TradeIn[]
}

/** An item of the shelf with all its prices. */
export async function viewShelfItem({ db }: Store, id: string): Promise<Result<ShelfItemView>> {
  const line = (await listShelf(db)).find(({ item }) => item.id === id)
  if (line === undefined) {
    const next = 'There is no such item on the shelf. The shelf shows them all.'
    return failed({ code: 'not found', field: 'item', got: id, next })
  }
  const tradeIns = (await listTradeIns(db)).filter(({ partId }) => partId === line.part.id)
  return ok({ ...line, prices: await shelfPricesOf(db, id), tradeIns })
}
