import type { Part } from '../part.ts'
import type { Findable } from '../shop.ts'
import { type Aim, asItem, type BuyBelow, buyBelow, foundItemId, withItem } from './buyBelow.ts'
import { type RankInput, rank } from './rank.ts'
import { remembered } from './remembered.ts'

/** A part that could be bought, with its figures. */
export type Found = { readonly findable: Findable; readonly part: Part }

/** What one question would pay for one part, by aim; nothing where the part helps it at no price. */
export type Wanting = { readonly questionId: string; readonly prices: readonly BuyBelow[] }

/** What one question would pay for each of these parts, one after the other, so that a caller can pause between them. */
export function* wantingOf(input: RankInput, found: readonly Found[]): Generator<Wanting | undefined> {
  // One memory for all of them: neither fit nor gain hangs on a price.
  const desk = remembered(input)
  const without = rank(desk)
  const { salesTaxBp = 0, taxIncluded = false } = input.policy
  for (const { findable, part } of found) {
    const prices = buyBelow({
      itemId: foundItemId(findable),
      rankAt: (priceMinor) => rank(withItem(desk, part, asItem(findable, priceMinor))),
      without,
      budgetMinor: input.question.budgetMinor,
      addedTaxBp: taxIncluded ? 0 : salesTaxBp,
    })
    yield prices.length === 0 ? undefined : { questionId: input.question.id, prices }
  }
}

/** The highest price that a question pays, over the aims; Infinity where there is no bound. */
export const highestOf = ({ prices }: Wanting): number =>
  Math.max(...prices.map(({ priceMinor }) => priceMinor ?? Number.POSITIVE_INFINITY))

/** How the prices that questions pay stand to what the part was seen for. */
export type Chance = 'as seen' | 'at the low end' | 'for less' | 'nobody'

/** One line of what to hunt for. */
export type Prey = Found & {
  /** Questions that it would help, those that pay most first. One piece serves one of them: the second pays for the second. */
  readonly wanting: readonly Wanting[]
  readonly chance: Chance
}

/**
 * What to hunt for: parts whose buy-below price lies furthest above what they were seen for come first; those that help
 * nobody last. `wanting` in the order of `found`.
 */
export function preyOf(found: readonly Found[], wanting: readonly (readonly Wanting[])[]): Prey[] {
  const lines = found.map((line, i): Prey => {
    const sorted = [...(wanting[i] ?? [])].sort(
      (a, b) => highestOf(b) - highestOf(a) || (a.questionId < b.questionId ? -1 : 1),
    )
    return { ...line, wanting: sorted, chance: chanceOf(line.findable, sorted) }
  })
  const room = ({ findable, wanting: [first] }: Prey) =>
    first === undefined ? Number.NEGATIVE_INFINITY : highestOf(first) - findable.highMinor
  return lines.sort((a, b) => {
    const [roomA, roomB] = [room(a), room(b)]
    return roomA === roomB ? (a.findable.id < b.findable.id ? -1 : 1) : roomB > roomA ? 1 : -1
  })
}

function chanceOf({ lowMinor, highMinor }: Findable, [first]: readonly Wanting[]): Chance {
  if (first === undefined) return 'nobody'
  const most = highestOf(first)
  return most >= highMinor ? 'as seen' : most >= lowMinor ? 'at the low end' : 'for less'
}

/** The aim that pays most, which a line is told by. */
export const leadOf = ({ prices }: Wanting): BuyBelow | undefined => {
  const worth = (p: BuyBelow) => p.priceMinor ?? Number.POSITIVE_INFINITY
  const order: readonly Aim[] = ['per money', 'in budget']
  return [...prices].sort((a, b) =>
    worth(a) === worth(b) ? order.indexOf(a.aim) - order.indexOf(b.aim) : worth(b) > worth(a) ? 1 : -1,
  )[0]
}
