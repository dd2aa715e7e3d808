import { byText } from '../gain/cellOf.ts'
import type { ShopPolicy } from '../shop.ts'
import type { Option, Ranking } from './option.ts'

/** What buying down the list of single parts comes to, beside what is best for the same budget. */
export type PartByPart = {
  /** The single parts in the order in which the list gives them. */
  readonly bought: readonly Option[]
  /** All of them together: an option of its own. */
  readonly together: Option
  readonly best: Option
  /** The parts of the best one alone, as far as they go in alone and have a number. */
  readonly alone: readonly Option[]
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
 * that comes to where the best bundle for the same budget adds at least the shop's smallest gain to it. Parts hold each other back, so gains do not add up.
 * `undefined` without a budget, where it comes to the same, and where the list's own bundle has no number.
 */
export function partByPart(
  { ranked, groups, bestInBudgetId }: Ranking,
  { smallestGainPct }: Pick<ShopPolicy, 'smallestGainPct'>,
): PartByPart | undefined {
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
  const more = (100 + best.useful.pct) / (100 + together.useful.pct) - 1
  const isTie = groups.some((ids) => ids.includes(best.id) && ids.includes(together.id))
  if (isTie || 100 * more < smallestGainPct) return undefined
  const alone = chosen(best).flatMap((id) => singles.find((one) => chosen(one)[0] === id) ?? [])
  return { bought, together, best, alone }
}

const keyOf = (ids: readonly string[]): string => [...ids].sort(byText).join('+')
