import type { Minor } from '../core/money.ts'
import type { BuyBelow } from '../core/ranking/buyBelow.ts'
import type { Option } from '../core/ranking/option.ts'
import { FINDABLE_EN } from './en/findable.ts'
import type { Figures } from './figures.ts'
import { fill, formOf } from './say.ts'

const RULES = new Intl.PluralRules('en')
const W = FINDABLE_EN
/** A month of the calendar, on average. */
const MONTH_DAYS = 30.44

/** How long ago, by whole days: "3 weeks ago". */
export function ageWords(days: number): string {
  if (days < 1) return W.age.today
  if (days < 2) return W.age.yesterday
  const [forms, n] =
    days < 14
      ? [W.age.days, days]
      : days < 60
        ? [W.age.weeks, Math.floor(days / 7)]
        : [W.age.months, Math.floor(days / MONTH_DAYS)]
  return fill(formOf(forms, n, RULES), { n: String(n) })
}

/** "$80 to $100", or one price. */
export const rangeWords = (
  { lowMinor, highMinor }: { readonly lowMinor: Minor; readonly highMinor: Minor },
  figures: Figures,
): string =>
  lowMinor === highMinor
    ? figures.money(lowMinor)
    : fill(W.range, { low: figures.money(lowMinor), high: figures.money(highMinor) })

/** "could be bought for $80 to $100 (seen 3 weeks ago)" */
export const couldBuyWords = (
  range: { readonly lowMinor: Minor; readonly highMinor: Minor },
  days: number,
  figures: Figures,
): string => fill(W.couldBuy, { range: rangeWords(range, figures), age: ageWords(days) })

export const questionsCounted = (n: number): string =>
  fill(formOf(W.hunt.counted, n, RULES), { n: String(n) })

/** "buy below $120", told as the price that still wins. */
export const belowWords = (priceMinor: Minor | undefined, figures: Figures): string =>
  priceMinor === undefined
    ? W.hunt.anyPrice
    : fill(W.hunt.below, { price: figures.money(priceMinor + 1, true) })

/** Why a buy-below price is what it is: the aim, the bundle with the part, and what it must beat. */
export function buyBelowWords(
  { aim, priceMinor, option, beats }: BuyBelow,
  figures: Figures,
  budgetMinor: Minor | undefined,
  optionWords: (option: Option) => string,
): string {
  const budget = budgetMinor === undefined ? '' : figures.money(budgetMinor)
  const name = fill(W.hunt.aims[aim], { budget })
  const told = (of: Option) => ({
    option: optionWords(of),
    gain: figures.gainPct(of.useful?.pct ?? 0),
    net: figures.money(of.price.netMinor),
  })
  const first = name.charAt(0).toUpperCase() + name.slice(1)
  if (priceMinor === undefined) return fill(W.hunt.whyAny, { aim: first })
  const why = fill(W.hunt.why, { aim: first, price: figures.money(priceMinor), ...told(option) })
  return `${why} ${beats === undefined ? W.hunt.beatsNothing : fill(W.hunt.beats, told(beats))}`
}
