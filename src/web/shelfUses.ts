import type { OffReason } from '../core/shelfEdit.ts'
import type { Result } from '../problem.ts'
import type { ItemDone, ItemTyped, PartsToPut, PartToPut } from '../uses/shelfEdits.ts'
import type { ShelfItemView } from '../uses/shelfItem.ts'

/** What stands on the shelf, and what people change of it. */
export type ShelfUses = {
  shelfItem(id: string): Promise<Result<ShelfItemView>>
  /** Parts with these words in their name, and what of them is on the shelf. */
  partsToPut(query: string): Promise<PartsToPut>
  /** Fields of its problems: those of the item, `part`, `name` of a new part. */
  putOnShelf(part: PartToPut, typed: ItemTyped): Promise<Result<ItemDone>>
  /** Fields of its problems: those of the item, `item`. */
  changeShelfItem(
    id: string,
    change: { readonly typed: ItemTyped; readonly seen?: string | undefined },
  ): Promise<Result<ItemDone>>
  /** Fields of its problems: `pieces`, `item`. */
  takeOffShelf(
    id: string,
    off: { readonly pieces: number; readonly because: OffReason; readonly seen?: string | undefined },
  ): Promise<Result<ItemDone>>
  /** Fields of its problems: `item`, `quantity`, `condition`. */
  undoShelfEdit(id: string, editId: string): Promise<Result<ItemDone>>
}
