import { createHash } from 'node:crypto'
import { ITEM_FIELDS, type ItemChange } from '../core/shelfEdit.ts'
import type { ShelfItem, TradeIn } from '../core/shop.ts'
import { itemChangeSchema } from '../input/storedShelf.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { listEdits } from '../store/edits.ts'
import type { Db, Store } from '../store/open.ts'
import { listShelfOfPart, loadShelfLine, type ShelfLine, shelfPricesOf } from '../store/shelf.ts'
import { listTradeIns } from '../store/work.ts'

/** A change of an item that a person made, and when. */
export type ItemEdit = ItemChange & { readonly id: string; readonly at: string }

export type ShelfItemView = ShelfLine & {
  /** Since when somebody took it off the shelf. */
  readonly removedAt?: string | undefined
  /** Every price it had, the oldest first. */
  readonly prices: readonly { readonly at: string; readonly priceMinor: number }[]
  /** Every credit for such a part, the oldest first. */
  readonly tradeIns: readonly TradeIn[]
  /** What people changed of it, the oldest first. */
  readonly edits: readonly ItemEdit[]
  /** Other items of the same part. */
  readonly alike: readonly ShelfLine[]
  /** Stands in the form: what the item was when the form was drawn. */
  readonly mark: string
}

export const noSuchItem = (got: string): Problem => ({
  ...{ code: 'not found', field: 'item', got },
  next: 'There is no such item on the shelf. The shelf shows them all.',
})

/** What an item is now, in one mark; its quantity counts what is put aside too. */
export const itemMark = (item: ShelfItem, removedAt: string | undefined): string =>
  createHash('sha256')
    .update(JSON.stringify([...ITEM_FIELDS.map((field) => item[field] ?? null), removedAt ?? null]))
    .digest('hex')
    .slice(0, 16)

/** An item of the shelf with all its prices. */
export async function viewShelfItem({ db }: Store, id: string): Promise<Result<ShelfItemView>> {
  const line = await loadShelfLine(db, id)
  if (line === undefined) return failed(noSuchItem(id))
  const tradeIns = (await listTradeIns(db)).filter(({ partId }) => partId === line.part.id)
  const alike = (await listShelfOfPart(db, line.part.id)).filter(({ item }) => item.id !== id)
  const mark = itemMark({ ...line.item, quantity: line.standing }, line.removedAt)
  const edits = await editsOfItem(db, id)
  return ok({ ...line, prices: await shelfPricesOf(db, id), tradeIns, edits, alike, mark })
}

/** Every change of an item, the oldest first. */
export const editsOfItem = async (db: Db, id: string): Promise<ItemEdit[]> =>
  (await listEdits(db, 'shelf item', id)).map(({ was, ...edit }) => ({
    ...itemChangeSchema.parse(was),
    ...edit,
  }))
