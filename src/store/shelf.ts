import { and, asc, eq, isNull, not, or, type SQL, sql } from 'drizzle-orm'
import { parts, roundItems, rounds, shelfItems, shelfPrices } from '../../db/schema.ts'
import { freeQuantity } from '../core/job/job.ts'
import type { Part } from '../core/part.ts'
import { CONDITIONS, type ItemPrice, type ShelfItem } from '../core/shop.ts'
import { holdsText } from './holdsText.ts'
import type { Db } from './open.ts'
import { partOf } from './parts.ts'
import { openReservations } from './reservations.ts'
import type { Piece } from './rows.ts'
import { groupBy, insertRows, oneOf, upsertRows, withoutNulls } from './rows.ts'

/** A shelf item with its part. */
export type ShelfLine = {
  /** Its quantity is what is free: what stands there less what is put aside for jobs. */
  readonly item: ShelfItem
  readonly part: Part
  /** How many stand on the shelf, those put aside included. */
  readonly standing: number
  readonly putAside: readonly { readonly jobId: string; readonly quantity: number }[]
}

/** What the shop can sell now or had on the shelf (quantity 0), with its part. */
export const listShelf = (db: Db): Promise<ShelfLine[]> => linesWhere(db, isHere)

/**
 * A part that was only asked about has a place with none there from the asking on; once its deal is dropped or not bought
 * the place is gone as well, unless somebody put one there. Its row stays for the offers that named it.
 */
const isNoDroppedDeal = not(
  and(
    eq(shelfItems.quantity, 0),
    sql`${shelfItems.id} in (select ${roundItems.itemId} from ${roundItems}
      inner join ${rounds} on ${rounds.id} = ${roundItems.roundId}
      where ${rounds.kind} = 'deal' and ${rounds.state} = 'called off' and ${rounds.boughtPieces} is null)`,
  ) as SQL,
)

/** What the shelf shows: no place of a dropped deal, and nothing that somebody took off. */
export const isHere = and(isNull(shelfItems.removedAt), isNoDroppedDeal)

/** As the list is ordered. */
const BY_PART = [asc(parts.kind), asc(parts.name), asc(shelfItems.id)]

async function linesWhere(
  db: Db,
  where: SQL | undefined,
  { offset = 0, most = -1 }: { readonly offset?: number; readonly most?: number } = {},
): Promise<(ShelfLine & { readonly removedAt?: string })[]> {
  const rows = await db
    .select({ item: shelfItems, part: parts })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(where)
    .orderBy(...BY_PART)
    .limit(most)
    .offset(offset)
  const heldOf = groupBy(await openReservations(db), (held) => held.itemId)
  return rows.map(({ item, part }) => {
    const held = heldOf.get(item.id) ?? []
    const quantity = freeQuantity(item.quantity, held)
    const putAside = held.map(({ jobId, quantity: n }) => ({ jobId, quantity: n }))
    const off = item.removedAt === null ? {} : { removedAt: item.removedAt }
    return {
      item: { ...itemOf(item), quantity },
      part: partOf(part),
      standing: item.quantity,
      putAside,
      ...off,
    }
  })
}

/** One item, also one that was taken off: then it says since when. */
export const loadShelfLine = async (
  db: Db,
  id: string,
): Promise<(ShelfLine & { readonly removedAt?: string }) | undefined> =>
  (await linesWhere(db, and(isNoDroppedDeal, eq(shelfItems.id, id))))[0]

/** Whatever stands there of one part. */
export const listShelfOfPart = (db: Db, partId: string): Promise<ShelfLine[]> =>
  linesWhere(db, and(isHere, eq(shelfItems.partId, partId)))

export type ShelfSearch = {
  /** Text in the part's name or kind, its key or the item's, upper and lower case alike; '' for all. */
  readonly query?: string | undefined
  /** The page that holds this item, whatever `offset` says. */
  readonly itemId?: string | undefined
  readonly offset: number
  readonly most: number
}

/** One piece of the shelf by kind and name, with where it begins. */
export async function searchShelf(
  db: Db,
  { query = '', itemId, offset, most }: ShelfSearch,
): Promise<Piece<ShelfLine> & { readonly offset: number }> {
  const texts = [parts.name, parts.kind, parts.id, shelfItems.id]
  const where = query.trim() === '' ? undefined : or(...texts.map((text) => holdsText(text, query)))
  const from = (itemId === undefined ? undefined : await pageOf(db, itemId, most)) ?? offset
  const [counted] = await db
    .select({ n: sql<number>`count(*)` })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(and(isHere, where))
  return {
    lines: await linesWhere(db, and(isHere, where), { offset: from, most }),
    total: counted?.n ?? 0,
    offset: from,
  }
}

/** Where the page of all items begins that holds this one; undefined for an unknown id. */
async function pageOf(db: Db, itemId: string, most: number): Promise<number | undefined> {
  const [here] = await db
    .select({ kind: parts.kind, name: parts.name, id: shelfItems.id })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(and(isHere, eq(shelfItems.id, itemId)))
  if (here === undefined) return undefined
  const [before] = await db
    .select({ n: sql<number>`count(*)` })
    .from(shelfItems)
    .innerJoin(parts, eq(shelfItems.partId, parts.id))
    .where(
      and(
        isHere,
        sql`(${parts.kind}, ${parts.name}, ${shelfItems.id}) < (${here.kind}, ${here.name}, ${here.id})`,
      ),
    )
  return Math.floor((before?.n ?? 0) / most) * most
}

/** What is free of each item, what it costs and since when, without its part. */
export async function listFree(db: Db): Promise<
  readonly {
    readonly id: string
    readonly quantity: number
    readonly priceMinor: number
    readonly at: string
  }[]
> {
  const rows = await db
    .select({
      ...{ id: shelfItems.id, quantity: shelfItems.quantity, priceMinor: shelfItems.priceMinor },
      at: shelfItems.pricedAt,
    })
    .from(shelfItems)
    .orderBy(shelfItems.id)
  const heldOf = groupBy(await openReservations(db), (held) => held.itemId)
  return rows.map((row) => ({ ...row, quantity: freeQuantity(row.quantity, heldOf.get(row.id) ?? []) }))
}

/** Items as they are kept: their quantity counts what is put aside as well. */
export async function listShelfItems(db: Db): Promise<ShelfItem[]> {
  return (await db.select().from(shelfItems).orderBy(shelfItems.id)).map(itemOf)
}

/** Takes so many of an item off the shelf for good. Throws when there are not so many: reservations forbid it. */
export async function takeFromShelf(tx: Db, itemId: string, quantity: number): Promise<void> {
  const [left] = await tx
    .update(shelfItems)
    .set({ quantity: sql`${shelfItems.quantity} - ${quantity}` })
    .where(eq(shelfItems.id, itemId))
    .returning({ quantity: shelfItems.quantity })
  if (left === undefined || left.quantity < 0) throw new RangeError('more is used than stands on the shelf')
}

/** Puts so many of an item back where they were taken from; one that was off the shelf since is on it again. */
export async function putBackOnShelf(tx: Db, itemId: string, quantity: number): Promise<void> {
  await tx
    .update(shelfItems)
    .set({ quantity: sql`${shelfItems.quantity} + ${quantity}`, removedAt: null })
    .where(eq(shelfItems.id, itemId))
}

/** Takes an item off the shelf: its row stays for what names it. */
export async function setOffShelf(tx: Db, itemId: string, removedAt: string): Promise<void> {
  await tx.update(shelfItems).set({ removedAt }).where(eq(shelfItems.id, itemId))
}

/** The id after the highest `S-` number: `S-0001` where no item has such an id. */
export async function nextItemId(db: Db): Promise<string> {
  const ids = (await db.select({ id: shelfItems.id }).from(shelfItems)).map((row) => row.id)
  const numbers = ids.flatMap((id) => /^S-(\d{1,9})$/.exec(id)?.[1] ?? [])
  const width = Math.max(0, ...numbers.map((n) => n.length)) || 4
  return `S-${String(Math.max(0, ...numbers.map(Number)) + 1).padStart(width, '0')}`
}

/** Every price an item had, the oldest first; those of one day as they were set. */
export async function shelfPricesOf(db: Db, itemId: string): Promise<{ at: string; priceMinor: number }[]> {
  return db
    .select({ at: shelfPrices.pricedAt, priceMinor: shelfPrices.priceMinor })
    .from(shelfPrices)
    .where(eq(shelfPrices.itemId, itemId))
    .orderBy(shelfPrices.pricedAt, shelfPrices.id)
}

/** Every price of every item, likewise. */
export async function listShelfPrices(db: Db): Promise<ItemPrice[]> {
  const rows = await db
    .select()
    .from(shelfPrices)
    .orderBy(shelfPrices.itemId, shelfPrices.pricedAt, shelfPrices.id)
  return rows.map(({ itemId, priceMinor, pricedAt }) => ({ itemId, priceMinor, at: pricedAt }))
}

/** Adds to the price history what is not in it yet. */
export async function insertShelfPrices(tx: Db, rows: readonly ItemPrice[]): Promise<void> {
  await insertRows(
    tx,
    shelfPrices,
    rows.map(({ itemId, at, priceMinor }) => ({ itemId, pricedAt: at, priceMinor })),
  )
}

/**
 * Adds or replaces items; one that was off the shelf is on it again. A price or pricing date that differs from the stored
 * one is added to the price history.
 */
export async function upsertShelf(tx: Db, items: readonly ShelfItem[]): Promise<void> {
  const before = new Map((await tx.select().from(shelfItems)).map((row) => [row.id, row]))
  await upsertRows(
    tx,
    shelfItems,
    [shelfItems.id],
    items.map(({ at, warrantyMonths = null, warrantyEndsWith = null, note = null, ...item }) => ({
      id: item.id,
      partId: item.partId,
      condition: item.condition,
      quantity: item.quantity,
      priceMinor: item.priceMinor,
      warrantyMonths,
      pricedAt: at,
      note,
      warrantyEndsWith,
      removedAt: null,
    })),
  )
  const repriced = items.filter((item) => {
    const old = before.get(item.id)
    return old?.priceMinor !== item.priceMinor || old.pricedAt !== item.at
  })
  await insertShelfPrices(
    tx,
    repriced.map(({ id, at, priceMinor }) => ({ itemId: id, at, priceMinor })),
  )
}

function itemOf(row: typeof shelfItems.$inferSelect): ShelfItem {
  const { pricedAt, condition, removedAt: _, ...item } = withoutNulls(row)
  return { ...item, condition: oneOf(CONDITIONS, condition), at: pricedAt }
}
