import type { DemandInputs } from '../../core/matching/demand.ts'
import type { Minor } from '../../core/money.ts'
import type { Part } from '../../core/part.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { listFindable } from '../../store/findable.ts'
import type { Store } from '../../store/open.ts'
import { loadParts } from '../../store/parts.ts'
import { listShelf } from '../../store/shelf.ts'
import { matchCustomers, matchShop } from './matchInputs.ts'

/** What is asked about one part: how it is named, and for how much it would be sold. */
export type DemandQuery = {
  /** The id of a shelf item, of a part that could be bought, or of a part. */
  readonly of: string
  readonly priceMinor?: Minor | undefined
  readonly leastPctPer100: number
}

/** All that demand for a part is worked out from, as things stand now. Throws where the part is gone since it was asked about. */
export async function demandInputs(store: Store, query: DemandQuery, at: string): Promise<DemandInputs> {
  const found = await partFor(store, query.of)
  if (!found.ok) throw new Error('the part that was asked about is gone')
  const { part, item } = found.value
  const customers = await matchCustomers(store, at)
  const shop = await matchShop(store, customers, at, [part])
  const ask = {
    ...{ item: { ...item, priceMinor: query.priceMinor ?? item.priceMinor }, part },
    ...{ leastPctPer100: query.leastPctPer100, smallestGainPct: shop.policy.smallestGainPct },
  }
  return { ask, shop, customers, at }
}

/** The part that is meant, as an item at the price it stands or was seen for. Fields of its problems: `of`. */
export async function partFor(
  { db }: Store,
  of: string,
): Promise<Result<{ readonly part: Part; readonly item: ShelfItem }>> {
  const found = (await listShelf(db)).find(({ item }) => item.id === of) ?? (await notOnShelf(db, of))
  if (found === undefined) {
    const next =
      'Give the id of a shelf item (S-601), of a part that could be bought (F-0001), or of a part the shop knows.'
    return failed({ code: 'not found', field: 'of', got: of, next })
  }
  if (!GAIN_KINDS.has(found.part.kind)) {
    const next =
      'It makes no game faster, so nobody gains by it. Ask about processors, memory, cards or boards.'
    return failed({ code: 'not allowed', field: 'of', got: of, next })
  }
  return ok(found)
}

async function notOnShelf(db: Store['db'], of: string): Promise<{ part: Part; item: ShelfItem } | undefined> {
  const seen = (await listFindable(db)).find(({ findable }) => findable.id === of)
  if (seen !== undefined) {
    const { id, partId, condition, highMinor, at, warrantyMonths } = seen.findable
    return {
      part: seen.part,
      item: { id, partId, condition, quantity: 1, priceMinor: highMinor, at, warrantyMonths },
    }
  }
  const [part] = await loadParts(db, [of])
  if (part === undefined) return undefined
  return { part, item: { id: of, partId: of, condition: 'new', quantity: 1, priceMinor: 0, at: '' } }
}
