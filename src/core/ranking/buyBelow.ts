import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import type { Findable, ShelfItem } from '../shop.ts'
import type { Option, Ranking } from './option.ts'
import { taxOn } from './tax.ts'

/** What a part that could be bought has to become: the pick by gain per money, or the largest gain in the budget. */
export const AIMS = ['per money', 'in budget'] as const
export type Aim = (typeof AIMS)[number]

/**
 * The buy-below price of a part for one question and one aim: the highest price, as its owner would pay it, at which the
 * ranking picks an option with that part. One minor unit more, and it does not.
 */
export type BuyBelow = {
  readonly aim: Aim
  /** Absent: at any price, because without it the shelf has nothing to recommend. */
  readonly priceMinor?: Minor | undefined
  /** The picked option, with the part at that price; at price 0 where there is no bound. */
  readonly option: Option
  /** What the ranking picks without the part; absent where it picks nothing. */
  readonly beats?: Option | undefined
}

/** The ranking with the part on the shelf at a price. The real one: nothing here knows what it compares. */
export type RankAt = (priceMinor: Minor) => Ranking

export type Hunted = {
  /** The id that the part has as an item of the shelf in `rankAt`. */
  readonly itemId: string
  readonly rankAt: RankAt
  /** The ranking of the shelf as it is. */
  readonly without: Ranking
  readonly budgetMinor?: Minor | undefined
  /** Added sales tax in basis points; only for the first guess. */
  readonly addedTaxBp?: number | undefined
}

/** The id of a part that could be bought among items of the shelf: behind theirs, so that a tie is the shelf's. */
export const foundItemId = ({ id }: Pick<Findable, 'id'>): string => `~${id}`

/** A part that could be bought as an item of the shelf at a price. */
export const asItem = (findable: Findable, priceMinor: Minor): ShelfItem => ({
  ...{
    id: foundItemId(findable),
    partId: findable.partId,
    condition: findable.condition,
    quantity: 1,
    priceMinor,
  },
  ...{ warrantyMonths: findable.warrantyMonths, at: findable.at, note: findable.note },
})

/** The input of a ranking with that item on the shelf beside what is there. */
export const withItem = <I extends { readonly parts: readonly Part[]; readonly shelf: readonly ShelfItem[] }>(
  input: I,
  part: Part,
  item: ShelfItem,
): I => ({
  ...input,
  parts: input.parts.some(({ id }) => id === part.id) ? input.parts : [...input.parts, part],
  shelf: [...input.shelf.filter(({ id }) => id !== item.id), item],
})

/** No price of a part is looked for above this; a part that is still picked there is picked at any price. */
const MOST_MINOR = 2 ** 36

/**
 * The buy-below prices of one part for one question: none for an aim that it does not reach even for nothing, and none
 * in the budget where there is no budget.
 *
 * The price is worked out from the gains of the options that hold the part (the ratio that beats the pick's, or what the
 * budget leaves) and then tried: it counts only where the ranking itself picks the part at that price and not at one
 * minor unit more. Where the guess is off, which rounding, tax or another way to complete the bundle can do, the border
 * is found by halving, between a price that was tried and wins and one that was tried and loses. As the price rises,
 * options with the part get dearer and the others stay, so there is one border.
 * Cost: one ranking, and two more for each aim; about forty where the guess is off.
 */
export function buyBelow(hunted: Hunted): BuyBelow[] {
  const { itemId, without, budgetMinor } = hunted
  const tried = new Map<Minor, Ranking>()
  const at = (priceMinor: Minor): Ranking => {
    const known = tried.get(priceMinor) ?? hunted.rankAt(priceMinor)
    tried.set(priceMinor, known)
    return known
  }
  return AIMS.flatMap((aim): BuyBelow[] => {
    if (aim === 'in budget' && budgetMinor === undefined) return []
    const pickAt = (priceMinor: Minor): Option | undefined => {
      const pick = pickOf(at(priceMinor), aim)
      return pick?.shelfItemIds.includes(itemId) ? pick : undefined
    }
    const free = pickAt(0)
    if (free === undefined) return []
    const beats = pickOf(without, aim)
    const said = { aim, ...(beats !== undefined && { beats }) }
    if (beats === undefined && aim === 'per money') return [{ ...said, option: free }]
    const priceMinor = borderOf((p) => pickAt(p) !== undefined, guessOf(aim, at(0), hunted, beats))
    return [{ ...said, priceMinor, option: (priceMinor === undefined ? free : pickAt(priceMinor)) ?? free }]
  })
}

/** The option that a ranking picks for an aim. */
export function pickOf(ranking: Ranking, aim: Aim): Option | undefined {
  const id = aim === 'per money' ? ranking.bestPerMoneyId : ranking.bestInBudgetId
  return id === undefined ? undefined : ranking.ranked.find((option) => option.id === id)
}

/** The highest price that wins, given that 0 does; undefined where even the highest does. */
function borderOf(wins: (priceMinor: Minor) => boolean, guess: Minor): Minor | undefined {
  let low = 0
  let high: Minor | undefined
  const look = (priceMinor: Minor) => {
    if (priceMinor <= low || (high !== undefined && priceMinor >= high)) return
    if (wins(priceMinor)) low = priceMinor
    else high = priceMinor
  }
  look(guess)
  look(guess + 1)
  look(guess - 1)
  for (let step = 16; high === undefined; step *= 4) {
    if (low >= MOST_MINOR) return undefined
    look(Math.min(MOST_MINOR, low + step))
  }
  while (high - low > 1) look(Math.floor((low + high) / 2))
  return low
}

/** The price at which the best of the options with the part is level with the pick, or fills the budget. */
function guessOf(
  aim: Aim,
  free: Ranking,
  { itemId, budgetMinor = 0, addedTaxBp = 0 }: Hunted,
  beats: Option | undefined,
): Minor {
  const leftFor = ({ useful, price }: Option): number => {
    if (useful === undefined || !(useful.pctLow > 0)) return 0
    const bar = beats?.useful?.pct ?? 0
    if (aim === 'in budget') return useful.pct > bar ? budgetMinor - price.netMinor : 0
    if (beats === undefined || beats.price.netMinor <= 0) return 0 - price.netMinor
    return (useful.pct * beats.price.netMinor) / bar - price.netMinor
  }
  const left = free.ranked.filter((o) => o.shelfItemIds.includes(itemId) && o.worthTheVisit).map(leftFor)
  const dueMinor = Math.min(MOST_MINOR, Math.max(0, Math.floor(Math.max(0, ...left))))
  return untaxed(dueMinor, addedTaxBp)
}

/** The largest price that is at most `dueMinor` with the tax on it. */
export function untaxed(dueMinor: Minor, bp: number): Minor {
  let price = Math.floor((dueMinor * 10_000) / (10_000 + bp))
  while (price > 0 && price + taxOn(price, bp) > dueMinor) price--
  while (price + 1 + taxOn(price + 1, bp) <= dueMinor) price++
  return price
}
