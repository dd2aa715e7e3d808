import { PRICE_STALE_DAYS, type ShopPolicy } from '../core/shop.ts'
import { daysSince } from '../input/dates.ts'

/** Whether the shop calls a price of that instant old: by days on its calendar. */
export const isOldPrice = (at: string, now: string, timeZone: string, policy: ShopPolicy): boolean =>
  daysSince(at, now, timeZone) > (policy.priceStaleDays ?? PRICE_STALE_DAYS)
