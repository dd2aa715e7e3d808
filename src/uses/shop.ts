import type { Shop } from '../core/answer.ts'
import { sameDayIn } from '../input/dates.ts'
import { currencyProblem } from '../input/keptCurrency.ts'
import { POLICY_DEFAULTS } from '../input/tables/shop.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { moveInstants } from '../store/days.ts'
import { placesOfMoney } from '../store/money.ts'
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
 * Keeps who the shop is and its rules. The currency stays once there are amounts in it; in another time zone stored
 * days stay the same days.
 */
export async function describeShop(store: Store, shop: Shop): Promise<Result<Shop>> {
  return store.write(async (tx) => {
    const { timeZone, policy } = await shopOrNeutral(tx)
    const { currency } = policy
    const problem = currencyProblem({ currency, places: await placesOfMoney(tx) }, shop.policy.currency)
    if (problem !== undefined) return failed(problem)
    if (timeZone !== shop.timeZone) await moveInstants(tx, sameDayIn(timeZone, shop.timeZone))
    await saveShop(tx, shop)
    return ok(shop)
  })
}
