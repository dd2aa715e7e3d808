import { byText } from '../gain/cellOf.ts'
import type { Option, Ranking } from './option.ts'

/** What buying down the list of single parts comes to, beside what is best for the same budget. */
export type PartByPart = {
  /** The single parts in the order in which the list gives them. */
  readonly bought: readonly Option[]
  /** All of them together: an option of its own. */
  readonly together: Option
  readonly best: Option
}

/** Parts that are no companion of the option. */
const chosen = ({ change, companionPartIds }: Option): string[] =>
  change.add.flatMap(({ id }) => (companionPartIds.includes(id) ? [] : [id]))

const kindsOf = (option: Option): ReadonlySet<string> => {
  const ids = chosen(option)
  return new Set(option.change.add.flatMap(({ id, kind }) => (ids.includes(id) ? [kind] : [])))
}

/**
 * Buying part by part, the most gain for the money first, as long as the money lasts and each next one is of another kind: what
 * that comes to where it is surely less than the best bundle for the same budget. Parts hold each other back, so gains do not add up.
 * `undefined` without a budget, where it comes to the same, and where the list's own bundle has no number.
 */
export function partByPart({ ranked, bestInBudgetId }: Ranking): PartByPart | undefined {
  const best = ranked.find(({ id }) => id === bestInBudgetId)
  if (best === undefined || chosen(best).length < 2) return undefined
  const singles = ranked.filter((option) => chosen(option).length === 1 && option.change.work.length === 0)
  let bought: Option[] = []
  let together: Option | undefined
  for (const single of singles) {
    if ((single.useful?.pctLow ?? 0) <= 0) continue
    if (bought.some((one) => [...kindsOf(one)].some((kind) => kindsOf(single).has(kind)))) continue
    const next = [...bought, single]
    const parts = keyOf(next.flatMap(chosen))
    const option = ranked.find((one) => one.withinBudget && keyOf(chosen(one)) === parts)
    if (option === undefined) continue
    bought = next
    together = option
  }
  if (together === undefined || together.useful === undefined || best.useful === undefined) return undefined
  const isSurelyLess = together.id !== best.id && together.useful.pctHigh < best.useful.pctLow
  return isSurelyLess ? { bought, together, best } : undefined
}

const keyOf = (ids: readonly string[]): string => [...ids].sort(byText).join('+')
