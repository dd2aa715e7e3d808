import type { Question } from '../question.ts'
import type { Ranking } from './option.ts'
import { byPrice, onGrid, type Standing } from './standing.ts'

type Picks = Pick<Ranking, 'bestPerMoneyId' | 'bestInBudgetId' | 'cheapestToTargetId' | 'frontierIds'>

/**
 * Worth recommending: reaches the shop's smallest gain, and is told apart from doing nothing (the lower end of the
 * useful gain is above 0).
 */
const isRecommendable = ({ option, useful }: Standing): boolean => option.worthTheVisit && useful.pctLow > 0

/**
 * The picks of `standings`, which come in order (byStanding). Gains over different titles are not compared: a pick by
 * gain comes from the widest set of titles that has something to recommend.
 */
export function picksOf(
  standings: readonly Standing[],
  question: Question,
  titlesAtTargetToday: number,
): Picks {
  const good = standings.filter(isRecommendable)
  return {
    bestPerMoneyId: good[0]?.option.id,
    bestInBudgetId: question.budgetMinor === undefined ? undefined : largestGain(good),
    cheapestToTargetId: cheapestToTarget(good, titlesAtTargetToday),
    frontierIds: frontierOf(standings),
  }
}

/** The largest useful gain the budget pays for; equal gains: the lower price. */
function largestGain(good: readonly Standing[]): string | undefined {
  const affordable = good.filter(({ option }) => option.withinBudget)
  const [best] = affordable
    .filter((s) => s.titles === affordable[0]?.titles)
    .sort((a, b) => onGrid(b.useful.pct) - onGrid(a.useful.pct) || byPrice(a.option, b.option))
  return best?.option.id
}

/**
 * The cheapest that brings most titles to the target, if that is more than today; so nothing when all
 * are there already. Frame rates reached are counted, not gains compared, so the set of titles does not matter here.
 */
function cheapestToTarget(good: readonly Standing[], today: number): string | undefined {
  const most = Math.max(0, ...good.map(({ option }) => option.titlesAtTarget))
  if (most <= today) return undefined
  const [cheapest] = good
    .map(({ option }) => option)
    .filter((option) => option.titlesAtTarget === most)
    .sort(byPrice)
  return cheapest?.id
}

/**
 * Steps of the cost/gain frontier, cheapest first: options that gain more than every option that costs no more, and
 * more than doing nothing for nothing. One frontier for each set of counted titles, merged by price; the missing
 * titles of an option are its mark.
 */
function frontierOf(standings: readonly Standing[]): string[] {
  const best = new Map<string, number>()
  const steps: Standing[] = []
  const cheapestFirst = [...standings].sort(
    (a, b) =>
      a.option.price.netMinor - b.option.price.netMinor ||
      onGrid(b.useful.pct) - onGrid(a.useful.pct) ||
      byPrice(a.option, b.option),
  )
  for (const s of cheapestFirst) {
    if (onGrid(s.useful.pct) <= (best.get(s.titles) ?? 0)) continue
    best.set(s.titles, onGrid(s.useful.pct))
    steps.push(s)
  }
  return steps.map((s) => s.option.id)
}
