import { minorPerMajor } from '../currency.ts'
import { byText } from '../gain/cellOf.ts'
import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import { untaxed } from '../ranking/buyBelow.ts'
import type { UsefulGain } from '../ranking/option.ts'
import { taxOn } from '../ranking/tax.ts'
import type { ShelfItem, ShopPolicy } from '../shop.ts'
import type { MatchInputs } from './ask.ts'
import { barOf, type LeftBecause } from './leftOut.ts'
import { modelOf } from './match.ts'
import { isAsked } from './pairs.ts'
import { benchOf, isWay, type Told, type Way, type Worth } from './worth.ts'

/** A part that is, or could be, for sale at a price: who could take it, and what it may cost so that it still sells. */
export type DemandAsk = {
  readonly item: ShelfItem
  readonly part: Part
  /** Percent of useful gain for 100 major units of money below which nobody is taken to buy. */
  readonly leastPctPer100: number
  readonly smallestGainPct: number
  /** Each machine that cannot take it is told with its reason: of a few, because a large shop has thousands. */
  readonly tellsEach?: boolean | undefined
}

/** All that it is worked out from, as plain data. */
export type DemandInputs = Pick<MatchInputs, 'shop' | 'customers' | 'at'> & { readonly ask: DemandAsk }

/** One machine that could take it. */
export type Taker = {
  readonly customerId: string
  readonly machineTag: string
  readonly way: Way
  readonly useful: UsefulGain
  /** The most that its owner named to spend; absent: nobody said. */
  readonly ceilingMinor?: Minor | undefined
  /**
   * The highest price of the part at which its owner would still take it: the gain is worth the money, and all of it stays
   * within the budget. Below 0: not even as a gift, because what has to go in beside it costs too much.
   */
  readonly mostMinor: Minor
  /** Why no offer may go to them now all the same. */
  readonly barred?: LeftBecause | undefined
}

export type Demand = {
  readonly ask: DemandAsk
  /** Whoever would pay most first. */
  readonly takers: readonly Taker[]
  /** Machines that cannot take it or gain too little, by reason. */
  readonly others: readonly { readonly because: string; readonly machines: number }[]
  /** The same machine by machine, where that was asked for. */
  readonly each?: readonly { readonly machineTag: string; readonly because: string }[] | undefined
  /** Machines whose owners' titles are known. */
  readonly machines: number
}

/**
 * Everybody who could take a part at its price, in the order of what they would pay. With the k-th highest of these prices k
 * pieces sell; nothing is shared out here, because one part is asked about and everybody takes one at most.
 */
export function demandFor(
  { ask, shop, customers, at }: DemandInputs,
  onProgress: (done: number, of: number) => void = () => {},
): Demand {
  const parts = shop.parts.some(({ id }) => id === ask.part.id) ? shop.parts : [...shop.parts, ask.part]
  const bench = benchOf({ ...shop, parts }, modelOf(shop), at)
  const takers: Taker[] = []
  const others = new Map<string, number>()
  const each: { machineTag: string; because: string }[] = []
  const count = (machineTag: string, because: string) => {
    others.set(because, (others.get(because) ?? 0) + 1)
    if (ask.tellsEach === true) each.push({ machineTag, because })
  }
  let machines = 0
  const sorted = [...customers].sort((a, b) => byText(a.id, b.id))
  for (const [i, customer] of sorted.entries()) {
    if (i % 8 === 0) onProgress(i, sorted.length)
    for (const of of customer.machines.filter(isAsked)) {
      const { question, machine } = of
      machines++
      const worth = bench.stand(of).worth(ask.item)
      const why = whyNot(worth, ask)
      if (why !== undefined || !isWay(worth)) {
        count(machine.tag, why ?? 'no number')
        continue
      }
      const barred = barOf(customer, NO_QUIET, at)?.reason
      takers.push({
        ...{ customerId: customer.id, machineTag: machine.tag, way: worth.way, useful: worth.useful },
        mostMinor: mostFor(worth, ask, question.budgetMinor, shop.policy),
        ...(question.budgetMinor !== undefined && { ceilingMinor: question.budgetMinor }),
        ...(barred !== undefined && { barred }),
      })
    }
  }
  onProgress(sorted.length, sorted.length)
  takers.sort((a, b) => b.mostMinor - a.mostMinor || byText(a.machineTag, b.machineTag))
  const list = [...others].map(([because, many]) => ({ because, machines: many }))
  return {
    ask,
    takers,
    others: list.sort((a, b) => b.machines - a.machines || byText(a.because, b.because)),
    ...(ask.tellsEach === true && { each }),
    machines,
  }
}

const NO_QUIET = { quietDays: 0 }

const whyNot = (worth: Worth, { smallestGainPct }: DemandAsk): string | undefined => {
  if (!isWay(worth)) return worth.because
  if (worth.useful.pct < smallestGainPct) return 'gain too small'
  return worth.useful.pctLow > 0 ? undefined : 'gain not sure'
}

/** The part's price that makes the whole cost what the gain is worth, or what the budget leaves; whole minor units, rounded down. */
function mostFor(
  { way, useful }: Told,
  { item, leastPctPer100 }: DemandAsk,
  budgetMinor: Minor | undefined,
  { currency, salesTaxBp = 0, taxIncluded = false }: ShopPolicy,
): Minor {
  const addedTaxBp = taxIncluded ? 0 : salesTaxBp
  const besideMinor = way.netMinor - item.priceMinor - taxOn(item.priceMinor, addedTaxBp)
  const byGain = Math.floor((useful.pct / leastPctPer100) * 100 * minorPerMajor(currency))
  const dueMinor = Math.min(byGain, budgetMinor ?? Number.POSITIVE_INFINITY) - besideMinor
  return dueMinor < 0 ? dueMinor : untaxed(dueMinor, addedTaxBp)
}

/** How many would take it at a price, and the highest price at which so many pieces sell; undefined where so many do not. */
export const soldAt = (takers: Demand['takers'], priceMinor: Minor): number =>
  takers.filter(({ mostMinor }) => mostMinor >= priceMinor).length
export const priceFor = (takers: Demand['takers'], pieces: number): Minor | undefined => {
  const kth = takers[pieces - 1]?.mostMinor
  return kth === undefined || kth < 0 ? undefined : kth
}
