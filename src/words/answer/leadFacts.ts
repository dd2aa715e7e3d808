import type { Option } from '../../core/ranking/option.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import { sayLimit } from '../limits.ts'
import { capital, type Filling, fill } from '../say.ts'
import { type Context, companionsOf, theGoods, wantedParts } from './context.ts'
import {
  asked,
  decidedOption,
  decidedOptions,
  decidingFacts,
  decidingLimit,
  factNames,
  isInside,
} from './facts.ts'
import { priceWhatOf } from './strip.ts'

/** Which facts are missing, and who finds them out. */
export function factsSaid(ctx: Context): string {
  const w = ctx.words.lead
  const { yours, ours } = factNames(ctx)
  const names = [...yours, ...ours]
  const count = { count: ctx.count(names.length), Count: capital(ctx.count(names.length), ctx.lang) }
  const [fact] = names
  if (fact === undefined)
    return ctx.some({ all: w.fact, some: w.factsMixed, none: w.factOurs }[asked(ctx)], decidingFacts(ctx))
  if (names.length > 1) {
    if (ours.length === 0) return fill(w.factsNamed, { ...count, facts: ctx.list(names) })
    if (yours.length === 0) return fill(w.factsOursNamed, { ...count, facts: ctx.list(names) })
    return fill(w.factsShared, { ...count, yours: ctx.list(yours), ours: ctx.list(ours) })
  }
  if (yours.length === 0) return fill(w.factOursNamed, { fact })
  return fill(ctx.pick !== undefined && ctx.pick.useful === undefined ? w.factNamedFit : w.factNamed, {
    fact,
  })
}

/** How the one fact that decides is found out, where the owner can. */
export function findOutOf(ctx: Context): string | undefined {
  const key = decidingLimit(ctx)
  return key && sayLimit(key, ctx.answer.limits[key], ctx.figures).findOut
}

/** How the one fact is found out, with the cautions where the machine is opened for it; of several, where that stands. */
export function howToOf(ctx: Context): readonly string[] {
  const w = ctx.words.lead
  const key = decidingLimit(ctx)
  const how = findOutOf(ctx)
  if (key === undefined || how === undefined) return [w.howBelow]
  const opens = isInside({ limit: key }) ? [w.readFirst] : []
  const sure = surelyOf(ctx)
  return [w.howTo, ...opens, how, ...(sure.length > 0 ? sure : [w.bringIt])]
}

/** What goes in without the fact, with its price: for those who would rather not look. */
function surelyOf(ctx: Context): readonly string[] {
  const sure = decidedOptions(ctx).flatMap(({ surely }) => surely ?? [])
  const said = sure.map((option) =>
    fill(ctx.words.lead.sure, {
      parts: theGoods(ctx, option, companionsOf(option), 'with'),
      part: theGoods(ctx, option, wantedParts(option), 'is'),
      price: ctx.money(option.price.netMinor),
    }),
  )
  return [...new Set(said)]
}

/** What waits for a fact, with its price where it is one thing; of several, what the prices beside them hold. */
export function decidedPrice(ctx: Context): readonly string[] {
  const option = decidedOption(ctx)
  if (option === undefined)
    return decidedOptions(ctx).some(({ price }) => price.netMinor > 0) ? [ctx.words.lead.decidedPrices] : []
  return option.price.netMinor <= 0
    ? []
    : [
        fill(ctx.words.lead.decidedPrice, priceOf(ctx, option)),
        ...(option.withinBudget || ctx.answer.inputs.question.budgetMinor === undefined
          ? []
          : [
              fill(ctx.words.lead.aboveBudget, { budget: ctx.money(ctx.answer.inputs.question.budgetMinor) }),
            ]),
      ]
}

/** What the shop's work on a named part costs where somebody else sells it; nothing where that is free. */
export function ownPartOf(ctx: Context): readonly string[] {
  const [id] = ctx.asking.partIds
  if (id === undefined || !ctx.asking.isElsewhere) return []
  const { ranked, withoutNumber, needsAFact } = ctx.answer.ranking
  const alone = [...ranked, ...withoutNumber, ...needsAFact].find((option) => {
    const wanted = wantedParts(option)
    return wanted.length === 1 && wanted[0]?.id === id && companionsOf(option).length === 0
  })
  if (alone === undefined) return []
  const work = dueOfLines(
    alone.price,
    alone.price.lines.filter(({ what }) => what !== 'part' && what !== 'trade-in'),
  )
  const part = ctx.list(
    alone.change.add.map((p) => fill(ctx.words.the.it[p.kind], { part: ctx.partWords(p.id) })),
  )
  return work === 0 ? [] : [fill(ctx.words.lead.ownPart, { part, price: ctx.money(work) })]
}

/** What an option costs, and what is in that. */
export const priceOf = (ctx: Context, option: Option): Filling => ({
  price: ctx.money(option.price.netMinor),
  what: priceWhatOf(ctx, option),
})
