import type { Shop } from '../core/answer.ts'
import { POLICY_DEFAULTS } from '../input/tables/shop.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { loadCounts } from '../store/counts.ts'
import type { Db, Store } from '../store/open.ts'
import { loadShop, saveShop } from '../store/shop.ts'

/** Neutral particulars, so that pages can be drawn before the shop has said who it is. */
const NEUTRAL_SHOP: Shop = {
  name: 'Your shop',
  address: '',
  email: '',
  builder: '',
  locale: 'en-US',
  timeZone: 'UTC',
  policy: { currency: 'USD', ...POLICY_DEFAULTS },
}

export const shopOrNeutral = async (db: Db): Promise<Shop> => (await loadShop(db)) ?? NEUTRAL_SHOP

/**
 * Keeps who the shop is and its rules. The currency can't change once there are prices: they are stored in its minor
 * units and would silently mean something else.
 */
export async function describeShop(store: Store, shop: Shop): Promise<Result<Shop>> {
  return store.write(async (tx) => {
    const { currency } = (await shopOrNeutral(tx)).policy
    if (currency !== shop.policy.currency && (await loadCounts(tx)).shelf > 0) {
      const next = `Prices are already kept in ${currency}. Empty the shelf before you change the currency.`
      return failed({ code: 'conflict', field: 'currency', got: shop.policy.currency, next })
    }
    await saveShop(tx, shop)
    return ok(shop)
  })
}
