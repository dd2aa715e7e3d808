import type { Build, Change } from '../build.ts'
import { partsOut } from '../build.ts'
import { byText } from '../gain/cellOf.ts'
import { type Minor, sumMinor } from '../money.ts'
import { FEE_WORK, fittingWork, OPENING_WORK, type TradeIn, type WorkPrice } from '../shop.ts'
import { opensMachine } from '../work/catalogue.ts'
import type { NetPrice, PriceLine } from './option.ts'
import type { Offer } from './shelf.ts'
import { type TaxPolicy, taxOn, taxWithin } from './tax.ts'

/** The shop's prices for labour and for parts that come out, looked up by name, and how it taxes. */
export type PriceTable = {
  readonly work: ReadonlyMap<string, WorkPrice>
  readonly credit: ReadonlyMap<string, Minor>
  readonly tax: TaxPolicy
}

/** Where a part has several trade-in prices, the newest counts; of equal dates the lower. */
export function priceTableOf(
  work: readonly WorkPrice[],
  tradeIns: readonly TradeIn[],
  tax: TaxPolicy = {},
): PriceTable {
  const oldestFirst = [...tradeIns].sort((a, b) => byText(a.at, b.at) || b.creditMinor - a.creditMinor)
  return {
    work: new Map(work.map((w) => [w.work, w])),
    credit: new Map(oldestFirst.map((t) => [t.partId, t.creditMinor])),
    tax,
  }
}

/**
 * What the owner pays for a change, in integer minor units:
 * parts in + opening and fee once + fitting once for each new kind of part + named work - credit for each part out
 * + sales tax where the shop adds it.
 *
 * Two kits of memory are fitted in one go, so fitting counts by kind, not by part. Opening and the shop's fee are charged
 * when a part goes in or out or a work needs hands inside. Work that the shop has not priced stands as a visible line of
 * 0: it is done, and its price is the shop's to set. A part out for which the shop gives nothing has no line: the owner
 * keeps it. Tax is worked out for each line by itself (see taxOn) and stands as one line below; where the prices hold it
 * already, it is told and adds nothing. A net of zero or below pays for itself where a trade-in brings it there; a net of
 * zero without one costs nothing, unless a work has no price yet. `bought` are the offers behind `change.add`, in the
 * same order.
 */
export function priceOf(
  build: Build,
  change: Change,
  bought: readonly Offer[],
  prices: PriceTable,
): NetPrice {
  const { work, credit, tax } = prices
  const labour = (what: 'opening' | 'fee' | 'fitting' | 'work', id: string, ref = id): PriceLine => {
    const price = work.get(id)
    return taxed({ what, ref, amountMinor: price?.priceMinor ?? 0, minutes: price?.minutes }, tax)
  }
  const out = partsOut(build, change)
  const handsIn = bought.length > 0 || out.length > 0 || change.work.some(opensMachine)
  const firstOfKind = bought.filter(({ part }, i) => bought.findIndex((b) => b.part.kind === part.kind) === i)
  const works = [...new Set(change.work)]
  const lines: PriceLine[] = [
    ...bought.map(({ item, part, untaxed }): PriceLine => {
      const { id: shelfItemId, priceMinor: amountMinor } = item
      return taxed({ what: 'part', ref: part.id, shelfItemId, amountMinor }, untaxed === true ? {} : tax)
    }),
    ...(handsIn ? [labour('opening', OPENING_WORK)] : []),
    ...(handsIn && work.has(FEE_WORK) ? [labour('fee', FEE_WORK)] : []),
    ...firstOfKind.map(({ part }) => labour('fitting', fittingWork(part.kind), part.id)),
    ...works.map((id) => labour('work', id)),
    ...out.flatMap(({ id }): PriceLine[] => {
      const creditMinor = credit.get(id)
      // 0 - x and not -x: a credit of 0 must not become the number -0.
      return creditMinor === undefined
        ? []
        : [taxed({ what: 'trade-in', ref: id, amountMinor: 0 - creditMinor }, tax)]
    }),
  ]
  return netPriceOf(
    lines,
    works.filter((id) => !work.has(id)),
    tax,
  )
}

/** The net of lines (without a line of tax) and what follows from it. */
export function netPriceOf(
  lines: readonly PriceLine[],
  unpriced: readonly string[],
  tax: TaxPolicy,
): NetPrice {
  const { salesTaxBp = 0, taxIncluded = false, tradeInsLowerTax = false } = tax
  const taxMinor = sumMinor(lines.map((line) => line.taxMinor ?? 0))
  const isTaxed = lines.some((line) => line.taxMinor !== undefined)
  const all: PriceLine[] =
    isTaxed && !taxIncluded ? [...lines, { what: 'tax', ref: TAX_REF, amountMinor: taxMinor }] : [...lines]
  const netMinor = sumMinor(all.map((line) => line.amountMinor))
  const isTraded = lines.some(({ what, amountMinor }) => what === 'trade-in' && amountMinor < 0)
  return {
    lines: all,
    netMinor,
    paysForItself: netMinor < 0 || (netMinor === 0 && isTraded),
    costsNothing: netMinor === 0 && !isTraded && unpriced.length === 0,
    unpriced,
    ...(isTaxed && { taxBp: salesTaxBp }),
    ...(isTaxed && taxIncluded && { taxIncludedMinor: taxMinor }),
    ...(isTaxed && !taxIncluded && tradeInsLowerTax && { creditTaxBp: salesTaxBp }),
  }
}

/** What `ref` says in a line of tax. */
const TAX_REF = 'sales tax'

/** The line with its tax, where the shop taxes such a line. */
function taxed(line: PriceLine, tax: TaxPolicy): PriceLine {
  const { salesTaxBp = 0, taxIncluded = false } = tax
  if (salesTaxBp === 0 || !isTaxable(line.what, tax)) return line
  return { ...line, taxMinor: (taxIncluded ? taxWithin : taxOn)(line.amountMinor, salesTaxBp) }
}

const isTaxable = (what: PriceLine['what'], { taxOnWork, tradeInsLowerTax }: TaxPolicy): boolean =>
  what === 'part' || (what === 'trade-in' ? tradeInsLowerTax === true : what !== 'tax' && taxOnWork === true)

/** An amount with the tax that the shop adds to it. */
const due = (
  what: PriceLine['what'],
  amountMinor: Minor,
  { salesTaxBp = 0, taxIncluded, ...tax }: TaxPolicy,
) => amountMinor + (taxIncluded === true || !isTaxable(what, tax) ? 0 : taxOn(amountMinor, salesTaxBp))

/** What a part of the shelf adds to a net price. A net price is a plain sum of such amounts. */
export const dueOfPart = ({ tax }: PriceTable, { item, untaxed }: Offer): Minor =>
  untaxed === true ? item.priceMinor : due('part', item.priceMinor, tax)

/** What a work adds, such as fitting a kind; 0 where the shop has no price. */
export const dueOfWork = ({ work, tax }: PriceTable, id: string): Minor =>
  due('work', work.get(id)?.priceMinor ?? 0, tax)

/** What is charged once where hands go in: opening and fee. */
export const dueOfOpening = (prices: PriceTable): Minor =>
  dueOfWork(prices, OPENING_WORK) + dueOfWork(prices, FEE_WORK)

/** What a part that comes out takes off, zero or more. */
export const dueOfCredit = ({ credit, tax }: PriceTable, partId: string): Minor =>
  due('trade-in', credit.get(partId) ?? 0, tax)

/** Amounts of some lines of a price, with the tax that was added for them. */
export const dueOfLines = ({ taxIncludedMinor }: NetPrice, lines: readonly PriceLine[]): Minor =>
  sumMinor(lines.map((l) => l.amountMinor + (taxIncludedMinor === undefined ? (l.taxMinor ?? 0) : 0)))
