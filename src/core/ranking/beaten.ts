import type { Minor } from '../money.ts'
import type { Option, Ranking } from './option.ts'

/** Why not this one: what costs no more and gains more. */
export type Beaten = {
  readonly by: Option
  /** Its place in the list, from 1. */
  readonly row: number
  readonly lessMinor: Minor
  /** What it gives on top, in percent. */
  readonly morePct: number
}

/**
 * The option that costs no more than this one, counts at least its titles and gains most above it; `undefined` for a step of the
 * frontier, which nothing beats, and where two can't be told apart.
 */
export function beatenBy({ ranked, groups }: Ranking, option: Option): Beaten | undefined {
  const { useful, price } = option
  if (useful === undefined) return undefined
  const group = groups.find((ids) => ids.includes(option.id)) ?? []
  let best: Beaten | undefined
  ranked.forEach((by, i) => {
    if (by.useful === undefined || by.id === option.id || by.price.netMinor > price.netMinor) return
    if (by.price.unpriced.length > 0 || group.includes(by.id)) return
    if (by.useful.missingTitleIds.some((id) => !useful.missingTitleIds.includes(id))) return
    const morePct = 100 * ((100 + by.useful.pct) / (100 + useful.pct) - 1)
    if (morePct < LEAST_PCT || morePct <= (best?.morePct ?? 0)) return
    best = { by, row: i + 1, lessMinor: price.netMinor - by.price.netMinor, morePct }
  })
  return best
}

/** Less than that is not worth a sentence. */
const LEAST_PCT = 1
