import type { Build, Change } from '../build.ts'
import { partsOut } from '../build.ts'
import { byText } from '../gain/cellOf.ts'
import { type Minor, sumMinor } from '../money.ts'
import { fittingWork, OPENING_WORK, type TradeIn, type WorkPrice } from '../shop.ts'
import { opensMachine } from '../work/catalogue.ts'
import type { NetPrice, PriceLine } from './option.ts'
import type { Offer } from './shelf.ts'

/** The shop's prices for labour and for parts that come out, looked up by name. */
export type PriceTable = {
  readonly work: ReadonlyMap<string, WorkPrice>
  readonly credit: ReadonlyMap<string, Minor>
}

/** Where a part has several trade-in prices, the newest counts; of equal dates the lower. */
export function priceTableOf(work: readonly WorkPrice[], tradeIns: readonly TradeIn[]): PriceTable {
  const oldestFirst = [...tradeIns].sort((a, b) => byText(a.at, b.at) || b.creditMinor - a.creditMinor)
  return {
    work: new Map(work.map((w) => [w.work, w])),
    credit: new Map(oldestFirst.map((t) => [t.partId, t.creditMinor])),
  }
}

/**
 * What the owner pays for a change, in integer minor units:
 * parts in + opening once + fitting once for each new kind of part + named work - credit for each part out.
 *
 * Two kits of memory are fitted in one go, so fitting counts by kind, not by part. Opening is charged when a part goes
 * in or out or a work needs hands inside. Work that the shop has not priced stands as a visible line of 0: it is done,
 * and its price is the shop's to set. A part out for which the shop gives nothing has no line: the owner keeps it.
 * A net of zero or below pays for itself where a trade-in brings it there; a net of zero without one costs nothing, unless a work has no
 * price yet. `bought` are the offers behind `change.add`, in the same order.
 */
export function priceOf(
  build: Build,
  change: Change,
  bought: readonly Offer[],
  { work, credit }: PriceTable,
): NetPrice {
  const labour = (what: 'opening' | 'fitting' | 'work', id: string, ref = id): PriceLine => {
    const price = work.get(id)
    return { what, ref, amountMinor: price?.priceMinor ?? 0, minutes: price?.minutes }
  }
  const out = partsOut(build, change)
  const handsIn = bought.length > 0 || out.length > 0 || change.work.some(opensMachine)
  const firstOfKind = bought.filter(({ part }, i) => bought.findIndex((b) => b.part.kind === part.kind) === i)
  const works = [...new Set(change.work)]
  const lines: PriceLine[] = [
    ...bought.map(
      ({ item, part }): PriceLine => ({
        what: 'part',
        ref: part.id,
        shelfItemId: item.id,
        amountMinor: item.priceMinor,
      }),
    ),
    ...(handsIn ? [labour('opening', OPENING_WORK)] : []),
    ...firstOfKind.map(({ part }) => labour('fitting', fittingWork(part.kind), part.id)),
    ...works.map((id) => labour('work', id)),
    ...out.flatMap(({ id }): PriceLine[] => {
      const creditMinor = credit.get(id)
      // 0 - x and not -x: a credit of 0 must not become the number -0.
      return creditMinor === undefined ? [] : [{ what: 'trade-in', ref: id, amountMinor: 0 - creditMinor }]
    }),
  ]
  const netMinor = sumMinor(lines.map((line) => line.amountMinor))
  const isTraded = lines.some(({ what, amountMinor }) => what === 'trade-in' && amountMinor < 0)
  const unpriced = works.filter((id) => !work.has(id))
  return {
    lines,
    netMinor,
    paysForItself: netMinor < 0 || (netMinor === 0 && isTraded),
    costsNothing: netMinor === 0 && !isTraded && unpriced.length === 0,
    unpriced,
  }
}
