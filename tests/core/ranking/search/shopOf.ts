import { potential } from '../../../../src/core/gain/model/points.ts'
import { smax } from '../../../../src/core/gain/model/smax.ts'
import type { Cells } from '../../../../src/core/ranking/search/cells.ts'
import {
  type Choice,
  leastOverSupersets,
  NO,
  type Platform,
  type Space,
} from '../../../../src/core/ranking/search/space.ts'
import { chance, KIND } from './drawnSpace.ts'

/*
 * An invented machine and a shelf of any size whose fits follow from figures, as the trade's do: sockets, memory generations,
 * lengths, watts. For comparing with a general solver, and for the clock.
 */
export type Figures = {
  readonly space: Space
  readonly cells: Cells
  readonly watts: {
    readonly platform: readonly number[]
    readonly card: readonly number[]
    readonly supply: readonly number[]
  }
}

export function shopOf(items: number, titleCount: number, seed: number): Figures {
  const next = chance(seed)
  const between = (low: number, high: number) => low + (high - low) * next()
  const pick = <T>(...values: T[]): T => values[Math.floor(next() * values.length)] as T
  const many = <T>(share: number, make: (i: number) => T): T[] =>
    Array.from({ length: Math.max(2, Math.round(items * share)) }, (_, i) => make(i))
  const price = (low: number, high: number) => Math.round(between(low, high))
  const sockets = Math.max(2, Math.round(Math.sqrt(items) / 2.8))
  const generation = (socket: number) => socket % 2
  const processors = many(0.12, (i) => {
    const speed = between(0.9, 2.4)
    return {
      socket: i % sockets,
      speed,
      watts: Math.round(45 + 50 * speed),
      priceMinor: price(4000, 9000 + 9000 * speed),
    }
  })
  const boards = many(0.1, (i) => ({
    socket: i % sockets,
    form: pick(0, 0, 1),
    ceiling: pick(2666, 3200, 3600),
    watts: pick(95, 125, 200),
    priceMinor: price(5000, 16_000),
  }))
  const kits = many(0.18, () => ({
    generation: pick(0, 1),
    rate: pick(2400, 2666, 3200, 3600, 4000),
    totalGB: pick(16, 32, 64),
    priceMinor: price(2500, 14_000),
  }))
  const cards = many(0.18, () => {
    const speed = between(0.8, 4)
    return {
      speed,
      mm: Math.round(170 + 45 * speed),
      watts: Math.round(70 + 75 * speed),
      priceMinor: price(6000, 10_000 + 14_000 * speed),
    }
  })
  const supplies = many(0.14, () => ({
    watts: pick(450, 550, 650, 750, 850),
    small: pick(0, 0, 1),
    priceMinor: price(3500, 12_000),
  }))
  const cases = many(0.14, () => ({
    form: pick(0, 1, 1),
    mm: pick(250, 300, 340, 400),
    cooler: pick(140, 155, 165),
    small: pick(0, 0, 1),
    priceMinor: price(4000, 11_000),
  }))
  const coolers = many(0.14, () => ({
    mm: pick(120, 150, 160),
    watts: pick(95, 130, 200),
    priceMinor: price(1500, 8000),
  }))
  const today = {
    processor: { socket: 0, speed: 1, watts: 95, priceMinor: 0 },
    board: { socket: 0, form: 0, ceiling: 3200, watts: 125, priceMinor: 0 },
    kit: { generation: generation(0), rate: 2666, totalGB: 16, priceMinor: 0 },
    card: { speed: 1, mm: 220, watts: 145, priceMinor: 0 },
    supply: { watts: 550, small: 0, priceMinor: 0 },
    case: { form: 1, mm: 300, cooler: 155, small: 0, priceMinor: 0 },
    cooler: { mm: 150, watts: 130, priceMinor: 0 },
  }
  const withToday = <T>(first: T, rest: readonly T[]) => [first, ...rest]
  const [allBoards, allProcessors] = [withToday(today.board, boards), withToday(today.processor, processors)]
  const allKits = withToday(today.kit, kits)

  // Of platforms that all that is read later sees alike, the cheapest: same processor, board form and memory as it runs.
  const cheapest = new Map<string, Platform & { readonly watts: number; readonly form: number }>()
  const classes = new Map<string, number>()
  const ends: { readonly speed: number; readonly rate: number; readonly totalGB: number }[] = []
  allBoards.forEach((board, b) => {
    allProcessors.forEach((processor, p) => {
      if (processor.socket !== board.socket || processor.watts > board.watts) return
      allKits.forEach((kit, m) => {
        if (kit.generation !== generation(board.socket)) return
        const rate = Math.min(kit.rate, board.ceiling)
        const name = `${p} ${rate} ${kit.totalGB}`
        if (!classes.has(name)) {
          classes.set(name, ends.length)
          ends.push({ speed: processor.speed, rate, totalGB: kit.totalGB })
        }
        const kinds = (b ? KIND.board : 0) | (p ? KIND.processor : 0) | (m ? KIND.memory : 0)
        const platform = {
          ...{
            class: classes.get(name) as number,
            kinds,
            works: 0,
            watts: processor.watts,
            form: board.form,
          },
          priceMinor: board.priceMinor + processor.priceMinor + kit.priceMinor,
        }
        const key = `${name} ${kinds} ${board.form}`
        const had = cheapest.get(key)
        if (had === undefined || platform.priceMinor < had.priceMinor) cheapest.set(key, platform)
      })
    })
  })
  const platforms = [...cheapest.values()]
  const choices = (list: readonly { readonly priceMinor: number }[], kind: number): Choice[] =>
    list.map(({ priceMinor }, i) => ({ priceMinor, kinds: i === 0 ? 0 : kind }))
  const [allCards, allCases] = [withToday(today.card, cards), withToday(today.case, cases)]
  const [allCoolers, allSupplies] = [withToday(today.cooler, coolers), withToday(today.supply, supplies)]
  const at = <T>(list: readonly T[], i: number): T => list[i] as T
  const kindLabour = (kinds: number) => {
    let minor = kinds === 0 ? 0 : 1500
    for (let bit = 0; bit < 7; bit++) if (kinds & (1 << bit)) minor += 800 + 100 * bit
    return minor
  }
  const least = leastOverSupersets(kindLabour, 7)
  const space: Space = {
    ...{
      classes: classes.size,
      platforms,
      cards: choices(allCards, KIND.card),
      cases: choices(allCases, KIND.case),
    },
    ...{ coolers: choices(allCoolers, KIND.cooler), supplies: choices(allSupplies, KIND.supply) },
    cardFits: () => 0,
    caseFits: (p, g, c) =>
      at(platforms, p).form <= at(allCases, c).form && at(allCards, g).mm <= at(allCases, c).mm ? 0 : NO,
    coolerFits: (p, _, c, k) =>
      at(allCoolers, k).mm <= at(allCases, c).cooler && at(platforms, p).watts <= at(allCoolers, k).watts
        ? 0
        : NO,
    supplyFits: (p, g, c, s) =>
      at(allSupplies, s).small >= at(allCases, c).small &&
      at(platforms, p).watts + at(allCards, g).watts + 50 <= at(allSupplies, s).watts * 0.8
        ? 0
        : NO,
    besideSees: (p, g) =>
      ((at(platforms, p).form * 1000 + at(allCards, g).mm) * 1000 + at(platforms, p).watts) * 1000 +
      at(allCards, g).watts,
    coolerSees: (p, _, c) => at(platforms, p).watts * allCases.length + c,
    supplySees: (p, g, c) => 2 * (at(platforms, p).watts + at(allCards, g).watts) + at(allCases, c).small,
    labour: kindLabour,
    leastLabour: (kinds) => at(least, kinds),
  }

  const titles = Array.from({ length: titleCount }, () => ({
    ...{
      a: Math.log(between(6, 14)),
      b: Math.log(between(6, 20)),
      memory: between(0, 0.3),
      weight: between(0.3, 1),
    },
  }))
  const spread = 0.05
  const [n, cardCount] = [ends.length, allCards.length]
  const [as, bs] = [new Float64Array(titleCount * n), new Float64Array(titleCount * cardCount)]
  titles.forEach((title, t) => {
    ends.forEach(({ speed, rate, totalGB }, q) => {
      as[t * n + q] =
        title.a - Math.log(speed) - title.memory * Math.log(rate / 2666) - (totalGB > 16 ? 0.01 : 0)
    })
    allCards.forEach(({ speed }, g) => {
      bs[t * cardCount + g] = title.b - Math.log(speed)
    })
  })
  const covariance = new Float64Array([spread ** 2, 0, 0, 0, spread ** 2, 0, 0, 0, 0.04])
  const blend = { k: 0, y: 0, least: Number.NEGATIVE_INFINITY }
  const logp = Math.log(7)
  const sharpest = Math.exp(logp + Math.sqrt(3) * 0.2)
  const aOf = (t: number, q: number) => as[t * n + q] as number
  const bOf = (t: number, g: number) => bs[t * cardCount + g] as number
  const mean = (t: number, q: number, g: number) =>
    potential('smax', [aOf(t, q), bOf(t, g), logp], covariance, blend)
  const total = titles.reduce((sum, { weight }) => sum + weight, 0)
  const sdOf = (q: number, g: number) => (q === 0 && g === 0 ? 0 : 0.04 + 0.02 * ((q * 7 + g * 13) % 5))
  return {
    space,
    cells: {
      titles: titles.map(({ weight }, t) => ({
        ...{
          weight: weight / total,
          capLog: Math.log(0.144),
          targetLog: Math.log(1000 / 90),
          today: mean(t, 0, 0),
        },
      })),
      ...{ mean, gainSd: (_, q, g) => sdOf(q, g), endSd: (_, q, g) => sdOf(q, g) },
      ...{ classFloor: aOf, cardFloor: bOf, sdFloor: (_, q, g) => (q === 0 && g === 0 ? 0 : 0.04) },
      pairFloor: (t, q, g) => Math.max(aOf(t, q), bOf(t, g)),
      finePairFloor: (t, q, g) => smax(aOf(t, q), bOf(t, g), sharpest),
    },
    watts: {
      platform: platforms.map(({ watts }) => watts),
      card: allCards.map(({ watts }) => watts),
      supply: allSupplies.map(({ watts }) => watts),
    },
  }
}
