import type { Shop } from '../core/answer.ts'
import type { ShopPolicy } from '../core/shop.ts'
import type { Db } from '../store/open.ts'
import { loadShop } from '../store/shop.ts'

/** The shop's rules until it sets its own. Shop policy, not standards. */
export const POLICY_DEFAULT: Omit<ShopPolicy, 'currency'> = {
  supplyShare: 0.8,
  restOfMachineW: 50,
  smallestGainPct: 5,
  runWindowDays: 400,
  priceValidDays: 14,
}

/** Neutral particulars, so that pages can be drawn before the shop has said who it is. */
const NEUTRAL_SHOP: Shop = {
  name: 'Your shop',
  address: '',
  email: '',
  builder: '',
  locale: 'en-US',
  timeZone: 'UTC',
  policy: { currency: 'USD', ...POLICY_DEFAULT },
}

export const shopOrNeutral = async (db: Db): Promise<Shop> => (await loadShop(db)) ?? NEUTRAL_SHOP
