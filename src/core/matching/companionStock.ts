import type { MatchAsk, MatchCustomer, MatchInputs, MatchShop } from './ask.ts'
import { placesOf } from './ask.ts'
import type { OnProgress } from './assign.ts'
import { type Could, type Item, isAsked, isOffer, type Pairs, valueTo } from './pairs.ts'
import { type SharedOut, type SharedWay, shareStock } from './sharedStock.ts'
import type { Asking, Bench, Told } from './worth.ts'

/** How the offers go out where companions run short. */
export type Packed = {
  readonly out: SharedOut
  /** Shelf items of the companions that run short, as the prices of `out` count them. */
  readonly short: readonly string[]
  /** The ways of a pair that takes some of them; by `customer * items + item`. */
  readonly waysOf: ReadonlyMap<number, readonly Could[]>
}

/** Companions that a way takes, by shelf item. */
export const companionItems = ({ way }: Told, itemId: string): string[] =>
  way.shelfItemIds.filter((id) => id !== itemId)

/** How many may go out of every shelf item as a companion. */
export const companionPlaces = ({ shelf }: MatchShop, { overOffer }: MatchAsk): Map<string, number> =>
  new Map(shelf.map(({ id, quantity }) => [id, placesOf(quantity, overOffer)]))

/** How many pieces of each companion some offers take together. */
export function usedBy(
  offers: readonly { readonly told: Told; readonly itemId: string }[],
): Map<string, number> {
  const used = new Map<string, number>()
  for (const { told, itemId } of offers)
    for (const id of companionItems(told, itemId)) used.set(id, (used.get(id) ?? 0) + 1)
  return used
}

/**
 * Shares the shelf out so that no companion goes out more often than there is of it, where the best matching would. `over` are
 * those that it takes too many of. More of them may run short on the way: then all are shared out together anew.
 */
export function packOffers(
  over: readonly string[],
  pairs: Pairs,
  customers: readonly MatchCustomer[],
  items: readonly Item[],
  { ask, shop }: Pick<MatchInputs, 'ask' | 'shop'>,
  bench: Bench,
  onProgress: OnProgress = () => {},
): Packed {
  const places = companionPlaces(shop, ask)
  const short = new Set(over)
  for (;;) {
    const ids = [...short].sort()
    const waysOf = waysWith(short, pairs, customers, items, ask, bench)
    const ways = new Map<number, SharedWay[]>()
    for (const [pair, list] of waysOf) {
      const { item } = items[pair % items.length] as Item
      ways.set(
        pair,
        list.map(({ told, value }) => ({
          value,
          uses: companionItems(told, item.id).flatMap((id) => (short.has(id) ? [ids.indexOf(id)] : [])),
        })),
      )
    }
    const stock = Int32Array.from(ids, (id) => places.get(id) ?? 0)
    const out = shareStock({ table: pairs.table, stock, ways }, onProgress)
    const packed: Packed = { out, short: ids, waysOf }
    const also = [...usedBy(offered(packed, pairs, items))].filter(
      ([id, n]) => n > (places.get(id) ?? 0) && !short.has(id),
    )
    if (also.length === 0) return packed
    for (const [id] of also) short.add(id)
  }
}

/** What goes out, in the order of customers. */
export function offered(
  { out, waysOf }: Pick<Packed, 'out' | 'waysOf'>,
  { could, table }: Pairs,
  items: readonly Item[],
): (Could & { readonly i: number; readonly j: number; readonly itemId: string })[] {
  return [...out.itemOf].flatMap((j, i) => {
    if (j < 0) return []
    const one = waysOf.get(i * table.items + j)?.[out.wayOf[i] as number] ?? could(i, j)
    const itemId = items[j]?.item.id
    return one === undefined || itemId === undefined ? [] : [{ ...one, i, j, itemId }]
  })
}

/** Every way of the pairs whose best way takes something that is short, as far as it would be an offer; most valuable first. */
function waysWith(
  short: ReadonlySet<string>,
  { table, machines }: Pairs,
  customers: readonly MatchCustomer[],
  items: readonly Item[],
  ask: MatchAsk,
  bench: Bench,
): Map<number, Could[]> {
  const all = new Map<number, Could[]>()
  for (const { i, of } of machines) {
    const stand = bench.stand(of)
    items.forEach((item, j) => {
      const pair = i * table.items + j
      if (table.values[pair] === 0 || all.has(pair)) return
      const seen = stand.glance(item.item)
      if ('because' in seen || !seen.beside.some((id) => short.has(id))) return
      const mine = (customers[i] as MatchCustomer).machines.filter(isAsked)
      all.set(
        pair,
        mine.flatMap((one) => waysInto(one, item, short, ask, bench)),
      )
    })
  }
  return all
}

const waysInto = (of: Asking, item: Item, short: ReadonlySet<string>, ask: MatchAsk, bench: Bench): Could[] =>
  bench
    .stand(of)
    .ways(item.item, short)
    .filter((told) => isOffer(told, of, ask, item))
    .map((told) => ({ of, told, value: valueTo(told.useful.pct, ask, item) }))
