import type { Part } from '../core/part.ts'
import type { WhyNot } from '../core/ranking/whyNot.ts'
import { FINDABLE_EN } from './en/findable.ts'
import { WHY_NOT_EN } from './en/whyNot.ts'
import type { Figures } from './figures.ts'
import { gradeWords, lackingWords, optionWords, priceWords, usefulWords } from './options.ts'
import { fill } from './say.ts'

const W = WHY_NOT_EN

/** Where a part stands, sentence by sentence; findings are told beside it. */
export function placeWords(told: WhyNot, parts: readonly Part[], figures: Figures): string[] {
  const named = (option: Parameters<typeof optionWords>[0]) => optionWords(option, parts)
  switch (told.place) {
    case 'ranked': {
      const { option, number, of, better, pick } = told
      return [
        ...(number === undefined
          ? [W.noPrice]
          : [fill(W.ranked, { number: figures.number(number), of: figures.number(of) })]),
        ...(number === 1 && pick?.id !== option.id ? [W.isPick] : []),
        fill(W.fits, {
          option: named(option),
          useful: usefulWords(option, figures),
          grade: gradeWords(option),
        }),
        ...(number === undefined ? [] : [fill(W.costs, { net: priceWords(option, figures) })]),
        ...(better === undefined ? [] : [betterWords(better, option, named, figures)]),
      ]
    }
    case 'no number':
      return [fill(W.noNumber, { option: named(told.option), net: priceWords(told.option, figures) })]
    case 'needs a fact':
      return [fill(W.needsAFact, { option: named(told.option) })]
    case 'ruled out': {
      const { out } = told
      if (out.wish !== undefined) return [W.ruledOut, fill(W.wish, { wish: out.wish })]
      const lacking = lackingWords(out)
      return [W.ruledOut, W.change, ...(lacking === undefined ? [] : [lacking])]
    }
    case 'fitted':
      return [W.fitted]
    case 'beside': {
      const [first] = told.options
      return [
        W.beside,
        first === undefined
          ? W.besideNot
          : fill(W.besideIn, { option: named(first), net: priceWords(first, figures) }),
      ]
    }
  }
}

type Option = Parameters<typeof optionWords>[0]

function betterWords(better: Option, option: Option, named: (o: Option) => string, figures: Figures): string {
  const lessMinor = option.price.netMinor - better.price.netMinor
  const more = (better.useful?.pct ?? 0) - (option.useful?.pct ?? 0)
  const values = { option: named(better), less: figures.money(lessMinor), more: figures.decimal(more) }
  const isMore = figures.decimal(more) !== figures.decimal(0)
  return fill(lessMinor > 0 ? (isMore ? W.better : W.betterSame) : W.betterMore, values)
}

/** What it may cost, by aim. */
export function priceLimitWords({ prices, place }: WhyNot, budget: string, figures: Figures): string[] {
  if (place === 'fitted' || place === 'beside' || place === 'ruled out') return []
  if (prices.length === 0) return [W.priceNone]
  return prices.map(({ aim, priceMinor }) => {
    const name = fill(FINDABLE_EN.hunt.aims[aim], { budget })
    return priceMinor === undefined
      ? fill(W.priceAny, { aim: name })
      : fill(W.priceOf, { aim: name, price: figures.money(priceMinor) })
  })
}
