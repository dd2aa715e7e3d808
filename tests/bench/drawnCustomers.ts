import { potential } from '../../src/core/gain/model/points.ts'
import type { Table } from '../../src/core/matching/table.ts'
import { chance } from '../core/ranking/search/drawnSpace.ts'

/*
 * Invented customers for the clock: machines of some thousand kinds, each a processor side and a card; every owner with titles, weights,
 * a display and a budget of their own. A cell (what is fitted, title) is worked out by the model's own formula, once for all
 * machines that share it; whether a part goes in and what it costs is a figure of the kind, as it is of a real shop's kinds.
 */
const TITLES = 12
const SIDES = 300

export type Drawn = { readonly table: Table; readonly cells: number; readonly kinds: number }

export function drawnCustomers(customers: number, items: number, seed: number): Drawn {
  const next = chance(seed)
  const between = (low: number, high: number) => low + (high - low) * next()
  const kinds = Math.min(3000, customers)
  const cards = 60
  const sides = Array.from({ length: SIDES }, () => between(0.8, 2.5))
  const speeds = Array.from({ length: cards }, () => between(0.6, 4))
  const titles = Array.from(
    { length: TITLES },
    () => [Math.log(between(6, 14)), Math.log(between(6, 20))] as const,
  )
  // An item is a processor side, or a card beyond those that are fitted.
  const shelf = Array.from({ length: items }, (_, j) => ({
    isCard: j % 3 !== 0,
    speed: between(1, 4.5),
    priceMinor: Math.round(between(5000, 60_000)),
    places: 1 + Math.floor(next() * 11),
  }))
  const machineKinds = Array.from({ length: kinds }, () => ({
    side: Math.floor(next() * SIDES),
    card: Math.floor(next() * cards),
    room: between(0.55, 1),
  }))
  const covariance = new Float64Array([0.0025, 0, 0, 0, 0.0025, 0, 0, 0, 0.04])
  const blend = { k: 0, y: 0, least: Number.NEGATIVE_INFINITY }
  const known = new Map<number, Float64Array>()
  let cells = 0
  /** Log frame times in all titles with one processor side and one card, fitted or new. */
  const timesOf = (side: number, isNewSide: boolean, card: number, isNewCard: boolean): Float64Array => {
    const key = ((isNewSide ? SIDES + side : side) * 2000 + (isNewCard ? cards + card : card)) | 0
    const had = known.get(key)
    if (had !== undefined) return had
    const a = Math.log(isNewSide ? (shelf[side]?.speed ?? 1) : (sides[side] ?? 1))
    const b = Math.log(isNewCard ? (shelf[card]?.speed ?? 1) : (speeds[card] ?? 1))
    const times = Float64Array.from(titles, ([ta, tb]) =>
      potential('smax', [ta - a, tb - b, Math.log(7)], covariance, blend),
    )
    cells += TITLES
    known.set(key, times)
    return times
  }
  const values = new Int32Array(customers * items)
  const waited = new Int32Array(customers)
  const gains = new Float64Array(items * TITLES)
  const today = new Float64Array(TITLES)
  const isIn = new Uint8Array(items)
  for (let k = 0; k < kinds; k++) {
    const { side, card, room } = machineKinds[k] as (typeof machineKinds)[number]
    today.set(timesOf(side, false, card, false))
    shelf.forEach(({ isCard, speed }, j) => {
      isIn[j] = (((k * 31 + j * 17) % 100) / 100 < room ? 1 : 0) & (speed > 0 ? 1 : 0)
      if (isIn[j] === 0) return
      gains.set(isCard ? timesOf(side, false, j, true) : timesOf(j, true, card, false), j * TITLES)
    })
    for (let i = k; i < customers; i += kinds) {
      waited[i] = Math.floor(next() * 1000)
      const cap = -Math.log((60 + 20 * Math.floor(next() * 5)) / 1000)
      const budgetMinor = between(8000, 60_000)
      const own = [0, 1, 2].map(() => [Math.floor(next() * TITLES), between(0.2, 1)] as const)
      const total = own.reduce((sum, [, w]) => sum + w, 0)
      for (let j = 0; j < items; j++) {
        if (isIn[j] === 0 || (shelf[j] as (typeof shelf)[number]).priceMinor > budgetMinor) continue
        let log = 0
        for (const [t, w] of own) {
          const [from, to] = [
            Math.max(today[t] as number, cap),
            Math.max(gains[j * TITLES + t] as number, cap),
          ]
          log += (w / total) * (from - to)
        }
        const pct = 100 * Math.expm1(log)
        if (pct >= 5) values[i * items + j] = Math.round(pct * 10_000)
      }
    }
  }
  return {
    table: { customers, items, values, waited, places: Int32Array.from(shelf, ({ places }) => places) },
    cells,
    kinds,
  }
}
