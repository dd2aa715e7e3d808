import type { Minor } from '../../money.ts'
import { type Pricing, pricing } from './price.ts'
import { byPriced, type Priced, type Shortcut, type Space } from './space.ts'

/**
 * What is made as large as possible: a figure of every pair of gain class and card. The bounds are upper ones and may be left
 * out; a pair listed under `apart` (measured, so it can be better than its two sides) is bounded by nothing.
 */
export type Objective = {
  /** The figure of doing nothing. */
  readonly start: number
  /** The exact figure, or any that is not above `best` where it cannot beat that. NaN where there is none. */
  readonly at: (gainClass: number, card: number, best: number) => number
  readonly ofClass?: (gainClass: number) => number
  readonly ofCard?: (card: number) => number
  readonly ofPair?: (gainClass: number, card: number, best: number) => number
  readonly apart?: readonly (readonly [gainClass: number, card: number])[]
  /** Pairs of different sets (of titles with a number) are not compared: a frontier each. With it, no bound is used. */
  readonly set?: (gainClass: number, card: number) => string
}

/** A step of a frontier: nothing that costs no more has as large a figure. */
export type Step = { readonly gainClass: number; readonly set: string; readonly value: number } & Priced

/** Figures closer than this are equal: it only swallows the last digits of the arithmetic. */
export const NEAR = 1e-12

export type Sweep = {
  readonly space: Space
  readonly prices: Pricing
  readonly objective: Objective
  /** Nothing dearer is looked at. */
  readonly upToMinor?: Minor | undefined
  /** Ends the sweep with the step that has this figure. */
  readonly enough?: number | undefined
  readonly shortcut?: Shortcut | undefined
}

/**
 * The whole frontier in one sweep of rising price: every price with the largest figure that it pays for, above doing nothing.
 *
 * A pair is priced when the band of its lower bound is reached, and only if its bounds beat what is had by then for less; it is
 * evaluated when the band of its exact price is. Exact: a price is at least its bound, so when a band is closed every pair not
 * yet seen costs more; a pair passed over has a figure not above something that is no dearer. Steps come cheapest first.
 */
export function frontier({ space, prices, objective, upToMinor, enough, shortcut }: Sweep): Step[] {
  const { ofClass, ofCard, ofPair, set, start } = objective
  const isBound = set === undefined
  const ends = new Map<string, { best: number; steps: Step[] }>()
  const endOf = (name: string) => {
    const known = ends.get(name)
    if (known !== undefined) return known
    const fresh = { best: start, steps: [] }
    ends.set(name, fresh)
    return fresh
  }
  const one = endOf('')
  const most = upToMinor ?? Number.POSITIVE_INFINITY
  const classes = sorted(prices.ofClass)
  const cards = sorted(prices.ofCard)
  const lows = cards.map((g) => prices.ofCard[g] as number)
  const cardBounds = ofCard && isBound ? Float64Array.from(space.cards, (_, g) => ofCard(g)) : undefined
  const classBounds =
    ofClass && isBound ? Float64Array.from({ length: space.classes }, (_, q) => ofClass(q)) : undefined
  const apart = new Set((objective.apart ?? []).map(([q, g]) => q * space.cards.length + g))
  const isMeasuredBounded = shortcut === 'bounds for measured pairs'
  const first = (prices.ofClass[classes[0] ?? 0] ?? 0) + (lows[0] ?? 0)
  if (classes.length === 0 || cards.length === 0 || !Number.isFinite(first)) return []
  const last = Math.min(most, (prices.ofClass[classes.at(-1) ?? 0] ?? 0) + (lows.at(-1) ?? 0))
  const widthMinor = Math.max(1, Math.ceil((last - first) / MOST_BANDS))
  const bands = Math.max(1, Math.ceil((last - first) / widthMinor) + 1)
  // Priced pairs by the band of their exact price; what is dearer than all bounds comes in the last.
  const due: Due[][] = Array.from({ length: bands }, () => [])
  const take = (q: number, g: number): void => {
    const priced = prices.of(q, g)
    if (priced === undefined || priced.netMinor > most) return
    const band = Math.floor((priced.netMinor - first) / widthMinor)
    due[Math.max(0, Math.min(bands - 1, band))]?.push({ priced, gainClass: q })
  }
  if (!isMeasuredBounded) for (const [q, g] of objective.apart ?? []) take(q, g)

  let live = classes.map((q) => ({ q, low: prices.ofClass[q] as number, next: 0 }))
  for (let band = 0; band < bands; band++) {
    const isLast = band === bands - 1
    // Bounds below the end of a band belong to it, so that no exact price lies in a band that is closed.
    const end = isLast ? Number.POSITIVE_INFINITY : first + (band + 1) * widthMinor
    let done = 0
    for (const entry of live) {
      if (entry.low + (lows[0] as number) >= end) break
      if (entry.next === cards.length) {
        done++
        continue
      }
      if (classBounds !== undefined && (classBounds[entry.q] as number) <= one.best + NEAR) {
        entry.next = cards.length
        continue
      }
      for (; entry.next < cards.length && entry.low + (lows[entry.next] as number) < end; entry.next++) {
        const g = cards[entry.next] as number
        if (isBound) {
          if (cardBounds !== undefined && (cardBounds[g] as number) <= one.best + NEAR) continue
          if (ofPair !== undefined && ofPair(entry.q, g, one.best) <= one.best + NEAR) continue
        }
        if (!isMeasuredBounded && apart.has(entry.q * space.cards.length + g)) continue
        take(entry.q, g)
      }
    }
    if (done * 4 > live.length) live = live.filter(({ next }) => next < cards.length)
    for (const { priced, gainClass } of (due[band] ?? []).sort(byDue)) {
      const name = set?.(gainClass, priced.card) ?? ''
      const of = endOf(name)
      const value = objective.at(gainClass, priced.card, of.best)
      if (!(value > of.best + NEAR)) continue
      of.best = value
      if (of.steps.at(-1)?.netMinor === priced.netMinor) of.steps.pop()
      of.steps.push({ ...priced, gainClass, set: name, value })
      if (enough !== undefined && value >= enough) return of.steps
    }
  }
  return [...ends.values()].flatMap(({ steps }) => steps).sort(byPriced)
}

const MOST_BANDS = 400

/** A priced pair that waits for its band. */
type Due = { readonly priced: Priced; readonly gainClass: number }
const byDue = (a: Due, b: Due): number => byPriced(a.priced, b.priced)

const sorted = (figures: Float64Array): number[] =>
  Array.from(figures, (_, at) => at)
    .filter((at) => Number.isFinite(figures[at]))
    .sort((a, b) => (figures[a] as number) - (figures[b] as number) || a - b)

/** A space, its prices, and the frontier of one objective. */
export const frontierOf = (space: Space, objective: Objective, shortcut?: Shortcut): Step[] =>
  frontier({ space, prices: pricing(space, shortcut), objective, shortcut })
