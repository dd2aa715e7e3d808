import type { Shop } from '../core/answer.ts'
import type { ShopPolicy } from '../core/shop.ts'
import { daysSince } from '../input/dates.ts'
import { isOldPrice } from '../uses/priceAge.ts'
import { FINDABLE_EN } from '../words/en/findable.ts'
import type { Figures } from '../words/figures.ts'
import { ageWords } from '../words/findable.ts'

/** Against what the age of a price counts. */
export type Clock = { readonly now: string; readonly timeZone: string; readonly policy: ShopPolicy }

export const clockOf = ({ timeZone, policy }: Shop, now: string): Clock => ({ now, timeZone, policy })

export const isStale = (at: string, { now, timeZone, policy }: Clock): boolean =>
  isOldPrice(at, now, timeZone, policy)

/** The day of a price, how long ago that is, and a mark where the shop calls such a price old. */
export const PriceAge = ({ at, clock, figures }: { at: string; clock: Clock; figures: Figures }) => (
  <>
    {figures.shortDate(at)}
    <small class="block">{ageWords(daysSince(at, clock.now, clock.timeZone))}</small>
    {isStale(at, clock) && <span class="grade">{FINDABLE_EN.old}</span>}
  </>
)
