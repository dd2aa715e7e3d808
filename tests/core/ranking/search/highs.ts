import { NO } from '../../../../src/core/ranking/search/space.ts'
import { openHighs } from '../../highs.ts'
import type { Figures } from './shopOf.ts'

/**
 * The largest gain that a budget pays for, by HiGHS, a general solver of mixed integer programmes (Huangfu & Hall, Mathematical
 * Programming Computation 10, 2018). Everything is said anew as a programme: one of each list, what does not go together excluded
 * pair by pair, watts and labour as sums; nothing of the search is used but the gains of pairs.
 */
export async function bestByHighs(
  { space, watts }: Figures,
  budgetMinor: number,
  gainOf: (gainClass: number, card: number) => number,
): Promise<number> {
  const highs = await openHighs()
  const { platforms, cards, cases, coolers, supplies } = space
  const rows: string[] = []
  const names = (letter: string, list: readonly unknown[]) => list.map((_, i) => `${letter}${i}`)
  const lists = { p: platforms, g: cards, c: cases, k: coolers, s: supplies }
  for (const [letter, list] of Object.entries(lists)) rows.push(`${names(letter, list).join(' + ')} = 1`)
  const pairs: [number, number][] = []
  for (let q = 0; q < space.classes; q++)
    for (let g = 0; g < cards.length; g++) if (gainOf(q, g) > 0) pairs.push([q, g])
  // z is 1 at most where the class and the card are taken.
  for (let q = 0; q < space.classes; q++) {
    const of = pairs.filter(([c]) => c === q)
    const members = platforms.flatMap((platform, p) => (platform.class === q ? [`p${p}`] : []))
    if (of.length > 0)
      rows.push(`${of.map(([, g]) => `z${q}_${g}`).join(' + ')} - ${members.join(' - ')} <= 0`)
  }
  for (let g = 0; g < cards.length; g++) {
    const of = pairs.filter(([, card]) => card === g)
    if (of.length > 0) rows.push(`${of.map(([q]) => `z${q}_${g}`).join(' + ')} - g${g} <= 0`)
  }
  const apart = (one: string, others: readonly string[]) => {
    if (others.length > 0) rows.push(`${others.join(' + ')} + ${others.length} ${one} <= ${others.length}`)
  }
  // Of the fits of an invented shop each sees two lists, apart from the watts.
  cases.forEach((_, c) => {
    apart(
      `c${c}`,
      platforms.flatMap((_, p) =>
        space.caseFits(p, 0, c) === NO && isFormOnly(space, p, c) ? [`p${p}`] : [],
      ),
    )
    apart(
      `c${c}`,
      cards.flatMap((_, g) => (platforms.every((_, p) => space.caseFits(p, g, c) === NO) ? [`g${g}`] : [])),
    )
    apart(
      `c${c}`,
      coolers.flatMap((_, k) =>
        platforms.every((_, p) => space.coolerFits(p, 0, c, k) === NO) ? [`k${k}`] : [],
      ),
    )
    apart(
      `c${c}`,
      supplies.flatMap((_, s) =>
        space.supplyFits(leastWatts(watts.platform), leastWatts(watts.card), c, s) === NO ? [`s${s}`] : [],
      ),
    )
  })
  coolers.forEach((_, k) => {
    apart(
      `k${k}`,
      platforms.flatMap((_, p) =>
        cases.every((_, c) => space.coolerFits(p, 0, c, k) === NO) ? [`p${p}`] : [],
      ),
    )
  })
  const sum = (letter: string, figures: readonly number[]) =>
    figures.map((n, i) => `${n} ${letter}${i}`).join(' + ')
  rows.push(
    `${sum('p', watts.platform)} + ${sum('g', watts.card)} - ${watts.supply.map((n, i) => `${0.8 * n} s${i}`).join(' - ')} <= -50`,
  )
  // Labour: opening for anything new, and each kind.
  const kinds = new Set<number>()
  const money: string[] = []
  for (const [letter, list] of Object.entries(lists))
    list.forEach((choice, i) => {
      money.push(`${choice.priceMinor} ${letter}${i}`)
      for (let bit = 0; bit < 7; bit++)
        if (choice.kinds & (1 << bit)) {
          rows.push(`${letter}${i} - n${bit} <= 0`)
          kinds.add(bit)
        }
    })
  const opening = space.labour(1, 0) + space.labour(2, 0) - space.labour(3, 0)
  for (const bit of kinds) {
    rows.push(`n${bit} - open <= 0`)
    money.push(`${space.labour(1 << bit, 0) - opening} n${bit}`)
  }
  rows.push(`${money.join(' + ')} + ${opening} open <= ${budgetMinor}`)
  const objective = pairs.map(([q, g]) => `${gainOf(q, g).toFixed(12)} z${q}_${g}`).join(' + ')
  const whole = [
    ...Object.entries(lists).flatMap(([letter, list]) => names(letter, list)),
    ...[...kinds].map((bit) => `n${bit}`),
    'open',
  ]
  const text = [
    ...['Maximize', ` obj: ${objective}`, 'Subject To'],
    ...rows.map((row, i) => ` r${i}: ${row}`),
    ...['Bounds', ...pairs.map(([q, g]) => ` 0 <= z${q}_${g} <= 1`)],
    ...['Binary', ` ${whole.join(' ')}`, 'End'],
  ].join('\n')
  const solved = highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 0 })
  // A text that is no model has the status Empty and no error.
  if (solved.Status !== 'Optimal') throw new Error(`HiGHS says ${solved.Status}`)
  return solved.ObjectiveValue
}

const leastWatts = (watts: readonly number[]): number => watts.indexOf(Math.min(...watts))
const isFormOnly = (space: Figures['space'], p: number, c: number): boolean =>
  space.cards.every((_, g) => space.caseFits(p, g, c) === NO)
