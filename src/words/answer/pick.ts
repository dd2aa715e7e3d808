import type { Answer } from '../../core/answer.ts'
import type { TitleGain } from '../../core/gain/gain.ts'
import { isSure, isToRunAgain } from '../../core/gain/useful.ts'
import type { Question } from '../../core/question.ts'
import type { Option, Ranking } from '../../core/ranking/option.ts'
import { wholeOf } from '../figures.ts'
import { isWorkOnly } from './workOnly.ts'

export type Known = Exclude<TitleGain, { grade: 'no number' }>

/** What kind of answer this is; it decides the subject and the first sentence. */
export type Case =
  | 'yes'
  | 'partly'
  | 'without number'
  | 'fact'
  | 'run'
  | 'games'
  | 'over budget'
  | 'not worth'
  | 'nothing'
  | 'reached'

const optionsOf = (r: Ranking): readonly Option[] => [...r.ranked, ...r.withoutNumber, ...r.needsAFact]

/**
 * The option the letter recommends: the builder's choice; else, unless the target is reached already, the first of
 * these that is worth the visit: the cheapest that reaches the target within the budget, the best within the budget;
 * without a budget, the best per money. What is above the budget is never recommended, see `nextStep`.
 * Throws on an id that the answer does not have: the form offers no other.
 */
export function pickOf(answer: Answer, pickId?: string | undefined): Option | undefined {
  const { ranking } = answer
  if (pickId !== undefined) {
    const chosen = optionsOf(ranking).find((o) => o.id === pickId)
    if (chosen === undefined) throw new RangeError(`the answer has no option "${pickId}"`)
    return chosen
  }
  if (targetReached(answer)) return undefined
  const { cheapestToTargetId, bestInBudgetId, bestPerMoneyId } = ranking
  const pick = [cheapestToTargetId, bestInBudgetId, bestPerMoneyId]
    .map((id) => ranking.ranked.find((o) => o.id === id))
    .find((o) => o?.withinBudget === true && o.worthTheVisit)
  return pick !== undefined && isSurpassed(pick, ranking) ? undefined : pick
}

/**
 * One missing fact stands before something within the budget that surely gains more than the pick: then the fact is
 * the answer, and nothing smaller is sold before it is known.
 */
const isSurpassed = (pick: Option, { needsAFact }: Ranking): boolean =>
  needsAFact.some(
    (o) => o.withinBudget && o.worthTheVisit && (o.useful?.pctLow ?? 0) > (pick.useful?.pctHigh ?? 0),
  )

/** Above the budget: what would be recommended if there were none. It is told with its price, and nobody is asked to buy it. */
export function nextStep({ ranking }: Answer): Option | undefined {
  const { bestPerMoneyId, cheapestToTargetId } = ranking
  return [bestPerMoneyId, cheapestToTargetId]
    .map((id) => ranking.ranked.find((o) => o.id === id))
    .find((o) => o?.withinBudget === false && o.worthTheVisit)
}

/** Every wanted title averages the target today. */
export const targetReached = (answer: Answer): boolean =>
  answer.inputs.question.wanted.length > 0 &&
  answer.ranking.titlesAtTargetToday >= answer.inputs.question.wanted.length

export function caseOf(answer: Answer, pick: Option | undefined): Case {
  const { ranking, inputs } = answer
  const games = inputs.question.wanted.length
  if (pick !== undefined) {
    if (pick.verdict === "can't tell") return 'fact'
    if (pick.useful === undefined) return 'without number'
    return pick.titlesAtTarget >= games ? 'yes' : 'partly'
  }
  if (targetReached(answer)) return 'reached'
  const facts = ranking.needsAFact.filter((o) => o.worthTheVisit)
  if (nextStep(answer) !== undefined) return facts.some((o) => o.withinBudget) ? 'fact' : 'over budget'
  if (ranking.ranked.length > 0) return facts.length > 0 ? 'fact' : 'not worth'
  if (games === 0 && ranking.withoutNumber.some((o) => !isWorkOnly(o))) return 'games'
  if (ranking.needsAFact.length > 0) return 'fact'
  return ranking.withoutNumber.some((o) => !isWorkOnly(o)) ? 'run' : 'nothing'
}

/** Gains with a number that we stand behind: one whose runs disagree is none. */
export const knownGains = (gains: readonly TitleGain[]): readonly Known[] => gains.filter(isSure)

/** Titles that have a number and are run again before anything is promised in them. */
export const toRunAgain = (gains: readonly TitleGain[]): readonly string[] =>
  knownGains(gains).flatMap((gain) => (isToRunAgain(gain) ? [gain.titleId] : []))

/**
 * The game of the first sentence: of those we promise something in (else of all with a number), of those below the target today that rise, the one that counts most, then the
 * lowest; else the one that rises most; else the first with a number. `gains` in the order of the wanted titles.
 */
export function headGain(gains: readonly TitleGain[], question: Question): Known | undefined {
  const all = knownGains(gains)
  const promised = all.filter((gain) => !isToRunAgain(gain))
  const known = promised.length > 0 ? promised : all
  const rises = (g: Known) => wholeOf(g.after.averageFps) > wholeOf(g.before.averageFps)
  const weight = (g: Known) => question.wanted.find((w) => w.titleId === g.titleId)?.weight ?? 0
  const [below] = known
    .filter((g) => g.before.averageFps < question.targetFps && rises(g))
    .sort((a, b) => weight(b) - weight(a) || a.before.averageFps - b.before.averageFps)
  if (below !== undefined) return below
  const [most] = known.filter(rises).sort((a, b) => b.logGain - a.logGain)
  return most ?? known[0]
}

/** Titles whose repeated runs disagree. */
export const unsureOf = (gains: readonly TitleGain[]): ReadonlySet<string> =>
  new Set(gains.flatMap((g) => (g.grade !== 'no number' && g.disagrees ? [g.titleId] : [])))
