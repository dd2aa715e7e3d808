import { partsOf } from '../build.ts'
import type { Minor } from '../money.ts'
import { type Part, SINGLE_KINDS } from '../part.ts'
import type { ShelfItem } from '../shop.ts'
import { type BuyBelow, buyBelow, withItem } from './buyBelow.ts'
import type { Option, Ranking, RuledOut } from './option.ts'
import { type RankInput, rank } from './rank.ts'
import { remembered } from './remembered.ts'
import { GAIN_KINDS } from './shelf.ts'

/** Where one part stands in the ranking of a question, or what keeps it out. */
export type Place =
  /** `number` counts from 1; absent where nobody gave a price. `better`: what costs no more and gains no less. */
  | {
      readonly place: 'ranked'
      readonly option: Option
      readonly number?: number | undefined
      readonly of: number
      readonly better?: Option | undefined
    }
  | { readonly place: 'no number' | 'needs a fact'; readonly option: Option }
  | { readonly place: 'ruled out'; readonly out: RuledOut }
  /** It is in the machine already. */
  | { readonly place: 'fitted' }
  /** Of a kind that does nothing for the frame rate by itself: it goes in where something else needs it. */
  | { readonly place: 'beside'; readonly options: readonly Option[] }

export type WhyNot = Place & {
  readonly part: Part
  readonly item: ShelfItem
  /** The price that was counted; absent where nobody gave one. */
  readonly priceMinor?: Minor | undefined
  /** The shelf has the same part for less: that one is ranked. */
  readonly cheaper?: ShelfItem | undefined
  /** What the ranking picks without a word on this part. */
  readonly pick?: Option | undefined
  /** The price that would make it the pick, by aim; none where no price does. */
  readonly prices: readonly BuyBelow[]
}

/**
 * Where a part stands for a question, whether it is on the shelf or not. It is ranked as if it were the only item of its
 * part; without a price it is fitted and gains, and has no place by money. Cost: some five rankings.
 */
export function whyNot(input: RankInput, part: Part, item: ShelfItem, priceMinor: Minor | undefined): WhyNot {
  const others = input.shelf.filter(({ partId, id }) => partId === part.id && id !== item.id)
  const shelf = input.shelf.filter(({ partId }) => partId !== part.id)
  const desk = remembered({ ...input, shelf })
  const rankAt = (price: Minor): Ranking =>
    rank(withItem(desk, part, { ...item, quantity: Math.max(1, item.quantity), priceMinor: price }))
  const ranking = rankAt(priceMinor ?? 0)
  const without = rank(desk)
  const { salesTaxBp = 0, taxIncluded = false } = input.policy
  const [cheapest] = others
    .filter(({ quantity }) => quantity > 0)
    .sort((a, b) => a.priceMinor - b.priceMinor || (a.id < b.id ? -1 : 1))
  return {
    ...placeOf(ranking, input, part, item, priceMinor),
    ...{ part, item, priceMinor },
    ...(cheapest !== undefined && cheapest.priceMinor <= (priceMinor ?? -1) && { cheaper: cheapest }),
    pick: without.ranked.find(({ id }) => id === without.bestPerMoneyId),
    prices: buyBelow({
      ...{ itemId: item.id, rankAt, without, budgetMinor: input.question.budgetMinor },
      addedTaxBp: taxIncluded ? 0 : salesTaxBp,
    }),
  }
}

function placeOf(
  ranking: Ranking,
  { machine }: RankInput,
  part: Part,
  { id: itemId }: ShelfItem,
  priceMinor: Minor | undefined,
): Place {
  if (SINGLE_KINDS.has(part.kind) && partsOf(machine.build).some(({ id }) => id === part.id))
    return { place: 'fitted' }
  const holds = ({ shelfItemIds }: Option) => shelfItemIds.includes(itemId)
  if (!GAIN_KINDS.has(part.kind)) return { place: 'beside', options: ranking.ranked.filter(holds) }
  const option = ranking.ranked.find(holds)
  if (option !== undefined) {
    const better = ranking.ranked.find((o) => !holds(o) && isBetter(o, option))
    return {
      ...{ place: 'ranked', option, of: ranking.ranked.length },
      ...(priceMinor !== undefined && { number: ranking.ranked.indexOf(option) + 1, better }),
    }
  }
  const unmeasured = ranking.withoutNumber.find(holds)
  if (unmeasured !== undefined) return { place: 'no number', option: unmeasured }
  const open = ranking.needsAFact.find(holds)
  if (open !== undefined) return { place: 'needs a fact', option: open }
  const out = ranking.ruledOut.find(({ shelfItemId }) => shelfItemId === itemId)
  return out === undefined ? { place: 'beside', options: [] } : { place: 'ruled out', out }
}

/** Costs no more and gains no less, over the same titles, and one of the two for good. */
function isBetter(a: Option, b: Option): boolean {
  if (a.useful === undefined || b.useful === undefined) return false
  if (String(a.useful.countedTitleIds) !== String(b.useful.countedTitleIds)) return false
  const [cost, gain] = [a.price.netMinor - b.price.netMinor, a.useful.pct - b.useful.pct]
  return cost <= 0 && gain >= 0 && (cost < 0 || gain > 0)
}
