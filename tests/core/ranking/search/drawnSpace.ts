import fc from 'fast-check'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import type { Cells } from '../../../../src/core/ranking/search/cells.ts'
import { type Choice, leastOverSupersets, NO, type Space } from '../../../../src/core/ranking/search/space.ts'

/*
 * Small invented machines and shelves, drawn: fits by chance from tables, credits above prices, labour that is any function of
 * the kinds, works that several parts ask for, a case that decides what cooler and supply see.
 */

/** Numbers by chance from one seed, so that a failing case is one number. */
export function chance(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

export const KIND = { board: 1, processor: 2, memory: 4, card: 8, supply: 16, case: 32, cooler: 64 } as const
const KINDS = 7
const WORKS = 3

export type Drawn = { readonly seed: number; readonly tight: number; readonly size: number }
export const drawnSeeds = fc.record({
  seed: fc.nat(),
  tight: fc.constantFrom(0.1, 0.35, 0.6),
  size: fc.integer({ min: 1, max: 4 }),
})

export function drawSpace({ seed, tight, size }: Drawn): Space {
  const next = chance(seed)
  const below = (n: number) => Math.floor(next() * n)
  const count = () => 1 + below(size)
  // Some credits are worth more than what is new.
  const priceMinor = () => (next() < 0.15 ? -below(4000) : below(12_000))
  const choices = (kind: number): Choice[] => [
    ...(next() < 0.8 ? [{ priceMinor: 0, kinds: 0 }] : []),
    ...Array.from({ length: count() }, () => ({ priceMinor: priceMinor(), kinds: kind })),
  ]
  const fit = () => (next() < tight ? NO : next() < 0.75 ? 0 : 1 << below(WORKS))
  const table = (...sizes: readonly number[]) => {
    const cells = Array.from({ length: sizes.reduce((n, s) => n * s, 1) }, fit)
    return (...at: readonly number[]) =>
      cells[at.reduce((place, i, d) => place * (sizes[d] as number) + i, 0)] as number
  }
  const classes = 1 + below(size + 1)
  const platforms = Array.from({ length: classes + below(2 * size) }, (_, i) => ({
    class: i < classes ? i : below(classes),
    priceMinor: i === 0 ? 0 : priceMinor(),
    kinds: i === 0 ? 0 : 1 + below(7),
    works: next() < 0.8 ? 0 : 1 << below(WORKS),
  }))
  const [cards, cases] = [choices(KIND.card), choices(KIND.case)]
  const [coolers, supplies] = [choices(KIND.cooler), choices(KIND.supply)]
  // Labour of a kind, opening once, and for some pairs of kinds a step down: moving all into a new case holds the card's.
  const opening = below(2000)
  const ofKind = Array.from({ length: KINDS }, () => below(3000))
  const together = Array.from({ length: 3 }, () => ({ kinds: below(1 << KINDS), minor: -below(5000) }))
  const kindLabour = (kinds: number) =>
    (kinds === 0 ? 0 : opening) +
    ofKind.reduce((sum, minor, bit) => sum + (kinds & (1 << bit) ? minor : 0), 0) +
    together.reduce((sum, t) => sum + ((kinds & t.kinds) === t.kinds && t.kinds !== 0 ? t.minor : 0), 0)
  const least = leastOverSupersets(kindLabour, KINDS)
  const ofWork = Array.from({ length: WORKS }, () => below(2500))
  const workLabour = (works: number) =>
    ofWork.reduce((sum, minor, bit) => sum + (works & (1 << bit) ? minor : 0), 0)
  const [p, g, c] = [platforms.length, cards.length, cases.length]
  return {
    ...{ classes, platforms, cards, cases, coolers, supplies },
    cardFits: table(p, g),
    caseFits: table(p, g, c),
    coolerFits: table(p, g, c, coolers.length),
    supplyFits: table(p, g, c, supplies.length),
    labour: (kinds, works) => kindLabour(kinds) + workLabour(works),
    leastLabour: (kinds, works) => (least[kinds] as number) + workLabour(works),
  }
}

/**
 * Cells as in the smooth maximum of two sides, with bounds that hold, some pairs measured: these lie anywhere, better than both
 * their sides too.
 */
export function drawCells(space: Space, seed: number, titleCount = 3): Cells {
  const next = chance(seed ^ 0x5eed)
  const list = (n: number, make: () => number) => Array.from({ length: n }, make)
  const [n, cards] = [space.classes, space.cards.length]
  const a = list(titleCount * n, () => Math.log(4 + 16 * next()))
  const b = list(titleCount * cards, () => Math.log(4 + 16 * next()))
  const own = list(titleCount * n * cards, () => 0.12 * next())
  const end = list(titleCount * n * cards, () => 0.1 * next())
  const measured: [number, number][] = []
  const shift = new Map<string, number>()
  for (let q = 0; q < n; q++)
    for (let g = 0; g < cards; g++)
      if (next() < 0.15) {
        measured.push([q, g])
        shift.set(`${q} ${g}`, 0.4 * (next() - 0.6))
      }
  const aOf = (t: number, q: number) => a[t * n + q] as number
  const bOf = (t: number, g: number) => b[t * cards + g] as number
  const place = (t: number, q: number, g: number) => (t * n + q) * cards + g
  const weights = list(titleCount, () => 0.1 + next())
  const all = weights.reduce((s, w) => s + w, 0)
  const mean = (t: number, q: number, g: number) =>
    smax(aOf(t, q), bOf(t, g), 7) + (shift.get(`${q} ${g}`) ?? 0)
  return {
    titles: weights.map((weight, t) => ({
      weight: weight / all,
      capLog: next() < 0.4 ? Number.POSITIVE_INFINITY : Math.log((60 + 120 * next()) / 1000),
      targetLog: Math.log(1000 / (60 + 80 * next())),
      today: mean(t, 0, 0),
    })),
    mean,
    gainSd: (t, q, g) => own[place(t, q, g)] as number,
    endSd: (t, q, g) => end[place(t, q, g)] as number,
    classFloor: aOf,
    cardFloor: bOf,
    pairFloor: (t, q, g) => Math.max(aOf(t, q), bOf(t, g)),
    sdFloor: (t, q, g) => 0.5 * (own[place(t, q, g)] as number),
    measured,
  }
}
