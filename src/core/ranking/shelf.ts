import type { Build } from '../build.ts'
import { partsOf } from '../build.ts'
import { byText } from '../gain/cellOf.ts'
import { type Part, type PartKind, SINGLE_KINDS } from '../part.ts'
import type { Wish } from '../question.ts'
import { isTested, isUsed, type ShelfItem } from '../shop.ts'
import { isTooLoud, type Sound } from './quiet.ts'

/** A shelf item with the part it is. `untaxed`: the owner buys it elsewhere, so no tax of ours is on it. */
export type Offer = { readonly item: ShelfItem; readonly part: Part; readonly untaxed?: true }

/** A part that the shelf has only in items that the owner does not want. */
export type Unwanted = Offer & { readonly wish: Wish }

/** Whether a wish of the owner excludes the offer. An open box is not used. */
const EXCLUDES: Readonly<Record<Wish, (offer: Offer, sound: Sound | undefined) => boolean>> = {
  'keep the case': ({ part }) => part.kind === 'case',
  'no used parts': ({ item }) => isUsed(item.condition),
  'no used supply': ({ item, part }) => isUsed(item.condition) && part.kind === 'supply',
  'no untested parts': ({ item }) => !isTested(item.condition),
  'only with warranty': ({ item }) => !((item.warrantyMonths ?? 0) > 0),
  quiet: ({ part }, sound) => isTooLoud(part, sound),
  // It asks for something more and leaves nothing out.
  'more space': () => false,
}

/** Kinds whose change can move a frame rate. A board moves it only by what it lets the memory and the link do. */
export const GAIN_KINDS: ReadonlySet<PartKind> = new Set(['processor', 'memory', 'card', 'board'])

/** Kinds that are added only when a rule demands one. */
export const COMPANION_KINDS: readonly PartKind[] = ['supply', 'case', 'cooler', 'fan']

/**
 * What the shelf offers this machine: of items of one part, the cheapest that no wish excludes (equal prices: the
 * lower id). Items of quantity 0 and of parts not in `parts` are not there. A part of a single kind that is fitted
 * already is no change and is left out without a word; a second kit of the fitted memory is one. `sound`: what was measured,
 * for the wish for quiet; without it that wish excludes nothing.
 */
export function offersOf(
  shelf: readonly ShelfItem[],
  parts: readonly Part[],
  wishes: readonly Wish[],
  build: Build,
  sound?: Sound,
): { readonly offers: readonly Offer[]; readonly unwanted: readonly Unwanted[] } {
  const partById = new Map(parts.map((p) => [p.id, p]))
  const fitted = new Set(
    partsOf(build)
      .filter((p) => SINGLE_KINDS.has(p.kind))
      .map((p) => p.id),
  )
  const offers = new Map<string, Offer>()
  const unwanted = new Map<string, Unwanted>()
  const cheapestFirst = [...shelf].sort((a, b) => a.priceMinor - b.priceMinor || byText(a.id, b.id))
  for (const item of cheapestFirst) {
    const part = partById.get(item.partId)
    if (part === undefined || !(item.quantity > 0) || fitted.has(part.id)) continue
    const wish = [...wishes].sort(byText).find((w) => EXCLUDES[w]({ item, part }, sound))
    if (wish === undefined) {
      if (!offers.has(part.id)) offers.set(part.id, { item, part })
    } else if (!unwanted.has(part.id)) unwanted.set(part.id, { item, part, wish })
  }
  return {
    offers: [...offers.values()],
    unwanted: [...unwanted.values()].filter(({ part }) => !offers.has(part.id)),
  }
}
