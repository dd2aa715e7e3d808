import type { ShelfItem } from './shop.ts'

/** Why pieces leave the shelf other than into a machine of the shop. */
export const OFF_REASONS = ['sold', 'used up', 'scrapped', 'wrong entry'] as const
export type OffReason = (typeof OFF_REASONS)[number]

/** What a person may change of an item; its key and its part stay, because offers and jobs name them. */
export const ITEM_FIELDS = [
  'condition',
  'quantity',
  'priceMinor',
  'warrantyMonths',
  'warrantyEndsWith',
  'at',
  'note',
] as const
export type ItemField = (typeof ITEM_FIELDS)[number]
export type ItemFields = Pick<ShelfItem, ItemField>

/** An item as it stood at one moment; its quantity counts what is put aside too. */
export type ItemState = { readonly item: ShelfItem; readonly removedAt?: string | undefined }

/** One change of an item, with both of its ends: so it can be taken back after others came. */
export type ItemChange = {
  readonly before: ItemState
  readonly after: ItemState
  readonly because?: OffReason | undefined
}

/** What differs between two states of one item. */
export const changedFields = (before: ShelfItem, after: ShelfItem): ItemField[] =>
  ITEM_FIELDS.filter((field) => before[field] !== after[field])

/**
 * The item without that change: fields it changed are what they were, all else is what it is now. Pieces are counted, not
 * set: what a job took since stays taken. A field that somebody else changed since is told, and then nothing is taken back.
 */
export function takenBack(
  now: ItemState,
  { before, after }: ItemChange,
): { readonly state: ItemState } | { readonly since: readonly ItemField[] } {
  const changed = changedFields(before.item, after.item)
  const quantity = now.item.quantity + before.item.quantity - after.item.quantity
  const since = changed.filter((field) =>
    field === 'quantity' ? quantity < 0 : now.item[field] !== after.item[field],
  )
  if (since.length > 0) return { since }
  const fields = Object.fromEntries(changed.map((field) => [field, before.item[field]]))
  const item: ShelfItem = { ...now.item, ...fields, quantity }
  const isToggled = (before.removedAt === undefined) !== (after.removedAt === undefined)
  const removedAt = isToggled ? before.removedAt : now.removedAt
  // What still stands there is on the shelf.
  return { state: quantity > 0 || removedAt === undefined ? { item } : { item, removedAt } }
}
