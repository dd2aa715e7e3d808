import { FOUR_OF_FIVE_SD, TITLE_CORRELATION } from '../../gain/noise.ts'
import type { Objective } from './sweep.ts'

/** The standard normal quantile of four in five: a target is reached where m + this sd lies within it. */
export const FOUR_IN_FIVE = 0.8416212336

export type CellTitle = {
  /** Of all titles together 1. */
  readonly weight: number
  /** Log of the highest frame rate the display shows, per millisecond: ln(Hz / 1000). Infinity: no cap. */
  readonly capLog: number
  /** Log of the frame time in ms that the target asks for: ln(1000 / FPS). */
  readonly targetLog: number
  /** Log frame time of the machine as it is. */
  readonly today: number
}

/**
 * Log frame times in every title by gain class and card. Every pair has a number in every title. Where bounds are given they
 * are lower ones of a time or a spread, and hold for all pairs that are not under `measured`.
 */
export type Cells = {
  readonly titles: readonly CellTitle[]
  readonly mean: (title: number, gainClass: number, card: number) => number
  /** Standard deviation of the gain against today, and of the new end by itself. */
  readonly gainSd: (title: number, gainClass: number, card: number) => number
  readonly endSd: (title: number, gainClass: number, card: number) => number
  readonly classFloor?: (title: number, gainClass: number) => number
  readonly cardFloor?: (title: number, card: number) => number
  readonly pairFloor?: (title: number, gainClass: number, card: number) => number
  /** A closer bound that costs more: asked where the other one does not decide. */
  readonly finePairFloor?: (title: number, gainClass: number, card: number) => number
  readonly sdFloor?: (title: number, gainClass: number, card: number) => number
  readonly measured?: readonly (readonly [gainClass: number, card: number])[]
}

/** What the display shows of a log frame time: a log frame rate, capped. */
const seen = ({ capLog }: CellTitle, mean: number): number => Math.min(capLog, -mean)

/** Titles by falling weight: early ones decide most. */
const ordered = ({ titles }: Cells): number[] =>
  titles
    .map((_, t) => t)
    .sort((a, b) => (titles[b] as CellTitle).weight - (titles[a] as CellTitle).weight || a - b)

/** The useful gain at the means: `U = sum w (min(l, -m_new) - min(l, -m_old))`, natural log. */
export function medianOf(cells: Cells): Objective {
  const { titles, mean, classFloor, cardFloor, pairFloor, finePairFloor, measured } = cells
  const order = ordered(cells)
  const todays = titles.map((title) => seen(title, title.today))
  const sum = (floor: (t: number) => number): number => {
    let all = 0
    for (let t = 0; t < titles.length; t++) {
      const title = titles[t] as CellTitle
      all += title.weight * (seen(title, floor(t)) - (todays[t] as number))
    }
    return all
  }
  const apart = new Set((measured ?? []).map(([q, g]) => `${q} ${g}`))
  return {
    start: 0,
    at: (q, g, best) => {
      // What the titles not yet looked at can add at most.
      let open =
        pairFloor === undefined || apart.has(`${q} ${g}`)
          ? Number.POSITIVE_INFINITY
          : sum((t) => pairFloor(t, q, g))
      let value = 0
      for (const t of order) {
        const title = titles[t] as CellTitle
        value += title.weight * (seen(title, mean(t, q, g)) - (todays[t] as number))
        if (open === Number.POSITIVE_INFINITY || pairFloor === undefined) continue
        open -= title.weight * (seen(title, pairFloor(t, q, g)) - (todays[t] as number))
        if (value + open <= best) return value + open
      }
      return value
    },
    ...(classFloor && { ofClass: (q: number) => sum((t) => classFloor(t, q)) }),
    ...(cardFloor && { ofCard: (g: number) => sum((t) => cardFloor(t, g)) }),
    ...(pairFloor && {
      ofPair: (q: number, g: number, best: number) => {
        const plain = sum((t) => pairFloor(t, q, g))
        return plain <= best || finePairFloor === undefined ? plain : sum((t) => finePairFloor(t, q, g))
      },
    }),
    ...(measured && { apart: measured }),
  }
}

/**
 * The lower end of the useful gain: `L = U - 1.2 sqrt(0.2 (sum s)^2 + 0.8 sum s^2)` with `s_t = w_t (u_t - u_t') / 1.2` and
 * u_t' the title's own lower end as the display shows it. It falls when a mean or a spread rises, so at lower bounds of both
 * it is an upper bound.
 */
export function cautiousOf(cells: Cells): Objective {
  const { titles, mean, gainSd, classFloor, cardFloor, pairFloor, finePairFloor, measured } = cells
  const sdFloor = cells.sdFloor ?? (() => 0)
  const order = ordered(cells)
  const n = titles.length
  const todays = titles.map((title) => seen(title, title.today))
  const [us, ss] = [new Float64Array(n), new Float64Array(n)]
  const put = (t: number, m: number, sd: number): void => {
    const title = titles[t] as CellTitle
    const u = seen(title, m) - (todays[t] as number)
    us[t] = title.weight * u
    const lower = seen(title, m + FOUR_OF_FIVE_SD * sd) - (todays[t] as number)
    ss[t] = (title.weight * (u - lower)) / FOUR_OF_FIVE_SD
  }
  const total = (): number => {
    let [u, s, squares] = [0, 0, 0]
    for (let t = 0; t < n; t++) {
      const down = ss[t] as number
      u += us[t] as number
      s += down
      squares += down * down
    }
    return u - FOUR_OF_FIVE_SD * Math.sqrt(TITLE_CORRELATION * s * s + (1 - TITLE_CORRELATION) * squares)
  }
  const bounded = (floor: (t: number) => number, sd: (t: number) => number): number => {
    for (let t = 0; t < n; t++) put(t, floor(t), sd(t))
    return total()
  }
  const none = () => 0
  const means = new Float64Array(n)
  return {
    start: 0,
    at: (q, g, best) => {
      for (let t = 0; t < n; t++) means[t] = mean(t, q, g)
      for (let t = 0; t < n; t++) put(t, means[t] as number, sdFloor(t, q, g))
      for (const t of order) {
        const upper = total()
        if (upper <= best) return upper
        put(t, means[t] as number, gainSd(t, q, g))
      }
      return total()
    },
    ...(classFloor && { ofClass: (q: number) => bounded((t) => classFloor(t, q), none) }),
    ...(cardFloor && { ofCard: (g: number) => bounded((t) => cardFloor(t, g), none) }),
    ...(pairFloor && {
      ofPair: (q: number, g: number, best: number) => {
        const least = (t: number) => sdFloor(t, q, g)
        const plain = bounded((t) => pairFloor(t, q, g), least)
        return plain <= best || finePairFloor === undefined
          ? plain
          : bounded((t) => finePairFloor(t, q, g), least)
      },
    }),
    ...(measured && { apart: measured }),
  }
}

/** How many titles reach the target with a probability of four in five. Its frontier is the cheapest way to each count. */
export function reachedOf(cells: Cells): Objective {
  const { titles, mean, endSd, classFloor, cardFloor, pairFloor, measured } = cells
  const count = (time: (t: number) => number): number => {
    let reached = 0
    for (let t = 0; t < titles.length; t++) if (time(t) <= (titles[t] as CellTitle).targetLog) reached++
    return reached
  }
  return {
    start: count((t) => (titles[t] as CellTitle).today),
    at: (q, g) => count((t) => mean(t, q, g) + FOUR_IN_FIVE * endSd(t, q, g)),
    ...(classFloor && { ofClass: (q: number) => count((t) => classFloor(t, q)) }),
    ...(cardFloor && { ofCard: (g: number) => count((t) => cardFloor(t, g)) }),
    ...(pairFloor && { ofPair: (q: number, g: number) => count((t) => pairFloor(t, q, g)) }),
    ...(measured && { apart: measured }),
  }
}
