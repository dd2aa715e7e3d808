import { byText } from './cellOf.ts'

/** A processor with a card that was run: how often, in how many titles, and when last (ISO 8601 UTC). */
export type MeasuredPair = {
  readonly processorId: string
  readonly cardId: string
  readonly runs: number
  readonly titles: number
  readonly lastAt: string
}

/** A processor or a card with the runs it was in. */
export type MeasuredPart = { readonly id: string; readonly runs: number }

export type MeasuredMap = {
  /** Those with most runs first; with equally many, by id. */
  readonly processors: readonly MeasuredPart[]
  readonly cards: readonly MeasuredPart[]
  /** The pairs, those with most runs first. */
  readonly pairs: readonly MeasuredPair[]
}

/** What was measured, with both sides in the order of use: who reads it looks for what the shop sells most. */
export function measuredMap(pairs: readonly MeasuredPair[]): MeasuredMap {
  const side = (idOf: (pair: MeasuredPair) => string): MeasuredPart[] => {
    const runs = new Map<string, number>()
    for (const pair of pairs) runs.set(idOf(pair), (runs.get(idOf(pair)) ?? 0) + pair.runs)
    return [...runs].map(([id, n]) => ({ id, runs: n })).sort((a, b) => b.runs - a.runs || byText(a.id, b.id))
  }
  return {
    processors: side(({ processorId }) => processorId),
    cards: side(({ cardId }) => cardId),
    pairs: [...pairs].sort(
      (a, b) => b.runs - a.runs || byText(a.processorId, b.processorId) || byText(a.cardId, b.cardId),
    ),
  }
}

/**
 * How well a pair is known, from nothing to well: never run; only old runs; one current run, which no other repeats; more.
 * `current` is how many of its runs are not old (core/gain/age).
 */
export const KNOWN = ['never', 'old', 'once', 'more'] as const
export type Known = (typeof KNOWN)[number]

export const knownBy = (runs: number, current: number): Known =>
  runs === 0 ? 'never' : current === 0 ? 'old' : current === 1 ? 'once' : 'more'

/** Key of a pair in a map. */
export const pairKey = ({ processorId, cardId }: Pick<MeasuredPair, 'processorId' | 'cardId'>): string =>
  JSON.stringify([processorId, cardId])
