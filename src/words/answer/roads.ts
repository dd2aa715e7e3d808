import type { Option } from '../../core/ranking/option.ts'
import { isFitting } from '../../core/verdict.ts'
import { fill } from '../say.ts'
import { type Context, optionWords, whyOf, worstOf } from './context.ts'
import type { Item, Letter } from './letter.ts'
import { headGain } from './pick.ts'

/** Options shown when none is recommended. */
const LOOKED_MOST = 3

const pct = (o: Option): number => o.useful?.pct ?? 0

/** The strongest of the cheaper options; those worth the visit first. */
function cheaperThan(pick: Option, ranked: readonly Option[]): Option | undefined {
  const cheaper = ranked.filter((o) => o.id !== pick.id && o.price.netMinor < pick.price.netMinor)
  const worth = cheaper.filter((o) => o.worthTheVisit)
  const [first, ...rest] = worth.length > 0 ? worth : cheaper
  return first === undefined ? undefined : rest.reduce((best, o) => (pct(o) > pct(best) ? o : best), first)
}

/** The cheapest of the stronger options; the frontier's steps first, because no other is as good for less. */
function strongerThan(
  pick: Option,
  ranked: readonly Option[],
  frontierIds: readonly string[],
): Option | undefined {
  const stronger = ranked.filter((o) => o.id !== pick.id && pct(o) > pct(pick))
  const steps = stronger.filter((o) => frontierIds.includes(o.id))
  const [first, ...rest] = steps.length > 0 ? steps : stronger
  return first === undefined
    ? undefined
    : rest.reduce((low, o) => (o.price.netMinor < low.price.netMinor ? o : low), first)
}

/** One cheaper and one stronger road beside the pick; without a pick, what we looked at. */
export function roadsOf(ctx: Context): {
  readonly roads: Letter['roads']
  readonly shown: readonly Option[]
} {
  const { pick, answer, words } = ctx
  const { ranked, withoutNumber, frontierIds } = answer.ranking
  const w = words.roads
  if (pick === undefined) {
    const shown = [...ranked, ...withoutNumber].slice(0, LOOKED_MOST)
    const roads = { head: w.headLooked, items: shown.map((o) => itemOf(ctx, o, [])) }
    return { roads: shown.length > 0 ? roads : undefined, shown }
  }
  const cheaper = cheaperThan(pick, ranked)
  const stronger = strongerThan(pick, ranked, frontierIds)
  const over = (o: Option) => !o.withinBudget && answer.inputs.question.budgetMinor !== undefined
  const budget = ctx.money(answer.inputs.question.budgetMinor ?? 0)
  const roads = [
    ...(cheaper ? [{ option: cheaper, lead: w.cheaper }] : []),
    ...(stronger && stronger !== cheaper
      ? [{ option: stronger, lead: over(stronger) ? fill(w.strongerOver, { budget }) : w.stronger }]
      : []),
  ]
  return {
    roads:
      roads.length === 0
        ? undefined
        : {
            head: roads.length === 2 ? w.headTwo : w.head,
            items: roads.map((r) => itemOf(ctx, r.option, [r.lead])),
          },
    shown: roads.map((r) => r.option),
  }
}

function itemOf(ctx: Context, option: Option, lead: readonly string[]): Item {
  const { words } = ctx
  const w = words.roads
  const net = option.price.netMinor
  const worst = worstOf(option.findings)[0]
  const why = option.verdict === 'fits' || worst === undefined ? [] : whyOf(ctx, option, worst)
  const said = [...lead, ...gainOf(ctx, option), ...worthOf(ctx, option)]
  return {
    ...ctx.verdict(option.verdict),
    what: fill(net < 0 ? w.back : w.what, {
      parts: optionWords(ctx, option),
      price: ctx.money(Math.abs(net)),
    }),
    says: [...said, ...(ctx.gloss.hasRoom(why) ? why : [])].map((s) => ctx.gloss.add(s)),
  }
}

function gainOf(ctx: Context, option: Option): readonly string[] {
  const { words, figures, answer } = ctx
  const w = words.roads
  const { targetFps, wanted } = answer.inputs.question
  const gain = headGain(option.gains, targetFps)
  if (gain === undefined || option.useful === undefined)
    return isFitting(option.verdict) ? [w.fits, w.withoutNumber] : [w.withoutNumber]
  const before = Math.round(gain.before.averageFps)
  const after = Math.round(gain.after.averageFps)
  const values = {
    title: ctx.titleName(gain.titleId),
    before: figures.number(before),
    after: figures.fps(after),
    low: figures.number(Math.floor(gain.afterFpsLow)),
    high: figures.number(Math.ceil(gain.afterFpsHigh)),
    grade: words.grades[gain.grade].word,
    target: figures.fps(targetFps),
    m: ctx.count(wanted.length),
  }
  const reach =
    option.titlesAtTarget === 0
      ? ctx.some(w.reachNone, wanted.length, values)
      : option.titlesAtTarget >= wanted.length
        ? ctx.some(w.reachAll, wanted.length, values)
        : ctx.some(w.reach, option.titlesAtTarget, values)
  return [
    fill(before === after && gain.sd === 0 ? w.same : w.gain, values),
    ...(wanted.length > 1 || option.titlesAtTarget === 0 ? [reach] : []),
  ]
}

/** Where money is not well spent, it is said: below the shop's floor, alone or on top of the pick. */
function worthOf(ctx: Context, option: Option): readonly string[] {
  const { words, figures, answer, pick } = ctx
  const w = words.roads
  if (option.useful === undefined) return []
  const gain = headGain(option.gains, answer.inputs.question.targetFps)
  if (!option.worthTheVisit) {
    const delta =
      gain === undefined ? 0 : Math.round(gain.after.averageFps) - Math.round(gain.before.averageFps)
    return delta <= 0
      ? [w.notWorthNothing]
      : [fill(w.notWorth, { delta: figures.fps(delta), price: ctx.money(option.price.netMinor) })]
  }
  if (pick?.useful === undefined) return []
  const level = answer.ranking.groups.some(
    (g) => (g[0] === pick.id && g.includes(option.id)) || (g[0] === option.id && g.includes(pick.id)),
  )
  if (level) return [w.level]
  const morePct = ((1 + pct(option) / 100) / (1 + pct(pick) / 100) - 1) * 100
  if (morePct <= 0 || morePct >= answer.inputs.shop.policy.smallestGainPct) return []
  const same = pick.gains.find((g) => g.titleId === gain?.titleId)
  const moreFps =
    gain === undefined || same === undefined || same.grade === 'no number'
      ? 0
      : Math.round(gain.after.averageFps) - Math.round(same.after.averageFps)
  const moreMinor = option.price.netMinor - pick.price.netMinor
  return moreFps > 0 && moreMinor > 0
    ? [fill(w.more, { delta: figures.fps(moreFps), price: ctx.money(moreMinor) }), w.notForThese]
    : [w.notForThese]
}
