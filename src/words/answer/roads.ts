import { displayOf } from '../../core/question.ts'
import type { Option } from '../../core/ranking/option.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import { isFitting } from '../../core/verdict.ts'
import { wholeOf } from '../figures.ts'
import { fill } from '../say.ts'
import { type Context, goodsWords, gradeWord, optionWords, reasonsOf } from './context.ts'
import { runAgainOf } from './lead.ts'
import type { Item, Letter } from './letter.ts'
import { oldPartsOf, oldWords, tradedKinds } from './oldParts.ts'
import { caseOf, headGain, type Known, knownGains, nextStep, targetReached, unsureOf } from './pick.ts'
import { aboutAfter, isEstimate, ratesOf } from './rates.ts'
import { howSure, mayOf, mayStayBelow } from './reached.ts'
import { priceWhatOf } from './strip.ts'
import { isFree, isWorkOnly } from './workOnly.ts'

/** Options shown when none is recommended. */
const LOOKED_MOST = 3
/** Reasons of one road; further ones are counted. */
const REASONS_MOST = 3

const pct = (o: Option): number => o.useful?.pct ?? 0

const missing = (o: Option): number => o.useful?.missingTitleIds.length ?? 0

/** The strongest of the cheaper options that surely gain anything; those worth the visit first, the others within the budget. */
function cheaperThan(pick: Option, ranked: readonly Option[]): Option | undefined {
  const cheaper = ranked.filter(
    (o) =>
      o.id !== pick.id &&
      o.price.netMinor < pick.price.netMinor &&
      (o.useful?.pctLow ?? 0) > 0 &&
      (o.worthTheVisit || o.withinBudget),
  )
  const [best] = cheaper.sort(
    (a, b) => Number(b.worthTheVisit) - Number(a.worthTheVisit) || missing(a) - missing(b) || pct(b) - pct(a),
  )
  return best
}

/** What an option gives on top of another, in percent. */
const morePct = (option: Option, than: Option): number =>
  ((1 + pct(option) / 100) / (1 + pct(than) / 100) - 1) * 100

/**
 * The cheapest of the stronger options: of those that bring more games to the target, else of those that add at least
 * the smallest gain worth a visit, else of all. One with fewer numbers than the pick is not known to be stronger.
 */
function strongerThan(pick: Option, ranked: readonly Option[], smallestGainPct: number): Option | undefined {
  const stronger = ranked
    .filter((o) => o.id !== pick.id && pct(o) > pct(pick) && missing(o) <= missing(pick))
    .sort((a, b) => a.price.netMinor - b.price.netMinor)
  return (
    stronger.find((o) => o.titlesAtTarget > pick.titlesAtTarget) ??
    stronger.find((o) => morePct(o, pick) >= smallestGainPct) ??
    stronger[0]
  )
}

/** One cheaper and one stronger road beside the pick; without a pick, what we looked at. */
export function roadsOf(ctx: Context): {
  readonly roads: Letter['roads']
  readonly shown: readonly Option[]
} {
  const { pick, answer, words } = ctx
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const w = words.roads
  const step = nextStep(answer)
  const over = (o: Option) => !o.withinBudget && answer.inputs.question.budgetMinor !== undefined
  const budget = ctx.money(answer.inputs.question.budgetMinor ?? 0)
  if (pick === undefined && step !== undefined && caseOf(answer, pick) === 'over budget') {
    const items = [
      itemOf(
        ctx,
        step,
        [fill(w.over, { budget: ctx.money(answer.inputs.question.budgetMinor ?? 0) })],
        w.reply.over,
      ),
    ]
    return { roads: { head: w.headNext, items }, shown: [step] }
  }
  if (pick === undefined) {
    const known = ranked.length > 0 || needsAFact.length > 0 || targetReached(answer)
    // Where a fact decides, what changes nothing is no road to look at.
    const isFact = caseOf(answer, pick) === 'fact'
    const looked = isFact ? ranked.filter((o) => (o.useful?.pctLow ?? 0) > 0) : ranked
    const shown = (known ? looked : withoutNumber).slice(0, LOOKED_MOST)
    const roads = {
      head: w.headLooked,
      items: shown.map((o, i) => {
        // Several may begin with the same name: a number tells them apart.
        const number = ctx.figures.number(i + 1)
        const isOffered = isFact && o.worthTheVisit
        return itemOf(
          ctx,
          o,
          [
            ...(isOffered ? [fill(w.number, { number })] : []),
            ...(over(o) ? [fill(w.over, { budget })] : []),
          ],
          isOffered ? fill(w.reply.looked, { number }) : undefined,
        )
      }),
    }
    return { roads: shown.length > 0 ? roads : undefined, shown }
  }
  const cheaper = cheaperThan(pick, ranked)
  const stronger = strongerThan(pick, ranked, answer.inputs.shop.policy.smallestGainPct)
  const free = ranked.find(
    (o) => isFree(o) && o.worthTheVisit && !o.change.work.every((work) => pick.change.work.includes(work)),
  )
  const roads = [
    ...(free ? [{ option: free, lead: words.work.first, reply: w.reply.first }] : []),
    ...(cheaper && cheaper !== free ? [{ option: cheaper, lead: w.cheaper, reply: w.reply.cheaper }] : []),
    ...(stronger && stronger !== cheaper
      ? [
          {
            option: stronger,
            lead: over(stronger) ? fill(w.strongerOver, { budget }) : w.stronger,
            reply: w.reply.stronger,
          },
        ]
      : []),
  ]
  return {
    roads:
      roads.length === 0
        ? undefined
        : {
            head: roads.length === 2 ? w.headTwo : w.head,
            items: roads.map((r) => itemOf(ctx, r.option, [r.lead], r.reply)),
          },
    shown: roads.map((r) => r.option),
  }
}

function itemOf(ctx: Context, option: Option, lead: readonly string[], reply?: string): Item {
  const { words } = ctx
  const w = words.roads
  const net = option.price.netMinor
  const said = [...lead, ...gainOf(ctx, option), ...worthOf(ctx, option)]
  return {
    ...ctx.verdict(option.verdict),
    what: isFree(option)
      ? fill(words.work.road, { works: optionWords(ctx, option) })
      : fill(net < 0 ? w.back : w.what, {
          parts: goodsWords(ctx, option),
          price: ctx.money(Math.abs(net)),
          ...(net >= 0 && { what: priceWhatOf(ctx, option) }),
        }),
    says: [
      ...said,
      ...reasonsOf(ctx, option, REASONS_MOST),
      ...oldPartsOf(ctx, option),
      ...(reply === undefined ? [] : [reply, ...keepOf(ctx, option)]),
    ].map((s) => ctx.gloss.add(s)),
  }
}

/** What it costs where the owner keeps what the price counts in exchange, and the words for it. */
function keepOf(ctx: Context, option: Option): readonly string[] {
  const { price } = option
  const credit = -dueOfLines(
    price,
    price.lines.filter(({ what }) => what === 'trade-in'),
  )
  if (credit <= 0) return []
  const kinds = tradedKinds(ctx, option)
  const values = { old: oldWords(ctx, kinds, 'it'), price: ctx.money(price.netMinor + credit) }
  return [ctx.some(ctx.words.roads.keep, kinds.length, values)]
}

function gainOf(ctx: Context, option: Option): readonly string[] {
  const { words, figures, answer } = ctx
  const w = words.roads
  const { targetFps, wanted } = answer.inputs.question
  const gain = headGain(option.gains, answer.inputs.question)
  if (gain === undefined || option.useful === undefined) {
    // What fits only after work is told with that work.
    const isPlain = isFitting(option.verdict) && option.verdict !== 'fits after work'
    return isPlain && !isWorkOnly(option) ? [w.fits, w.withoutNumber] : [w.withoutNumber]
  }
  const values = {
    target: figures.fps(targetFps),
    m: ctx.count(wanted.length),
    surely: howSure(ctx, option.gains),
  }
  const unsure = unsureOf(option.gains)
  const lost = option.useful.missingTitleIds.filter((id) => !unsure.has(id)).map((id) => ctx.titleName(id))
  const disagreeing = [...unsure].map((id) => ctx.titleName(id))
  const may = mayStayBelow(ctx, option.gains).length
  const reach =
    option.titlesAtTarget === 0
      ? may > 0
        ? ctx.some(w.reachMay, may, values)
        : ctx.some(w.reachNone, wanted.length, values)
      : option.titlesAtTarget >= wanted.length
        ? wanted.length === 2
          ? fill(w.reachBoth, values)
          : ctx.some(w.reachAll, wanted.length, values)
        : ctx.some(w.reach, option.titlesAtTarget, values)
  const others = knownGains(option.gains).filter((one) => one !== gain)
  return [
    ...[gain, ...others].map((one) => goesOf(ctx, option, one)),
    ...(wanted.length > 1 || option.titlesAtTarget === 0 ? [reach] : []),
    ...(option.titlesAtTarget > 0 ? mayOf(ctx, option.gains) : []),
    ...(lost.length > 0 ? [fill(w.missing, { titles: ctx.list(lost) })] : []),
    ...(disagreeing.length > 0 ? [fill(w.unsure, { titles: ctx.list(disagreeing) })] : []),
    ...runAgainOf(ctx, option.gains),
  ]
}

/** What one game goes from and to, with its range and grade. */
export function goesOf(ctx: Context, option: Option, gain: Known): string {
  const w = ctx.words.roads
  const before = wholeOf(gain.before.averageFps)
  const after = wholeOf(gain.after.averageFps)
  return fill(before !== after ? w.gain : gain.sd === 0 ? w.same : w.near, {
    title: ctx.titleName(gain.titleId),
    before: ratesOf(ctx, gain).before,
    // "Stays near" has its own "about".
    after: before === after ? ctx.fpsAt(gain.after.averageFps) : aboutAfter(ctx, gain),
    ...ctx.figures.outwards(gain.afterFpsLow, gain.afterFpsHigh),
    grade: gradeWord(ctx, option, gain.grade),
  })
}

/** Below the shop's floor: what it would add, or in which game it is slower, and that we would not buy it. */
export function notWorthOf(ctx: Context, option: Option, areToldFps = false): readonly string[] {
  const { words, figures, answer } = ctx
  const w = words.roads
  if (option.useful === undefined || option.worthTheVisit || isWorkOnly(option)) return []
  // "It fits" is not said of what may not.
  const said = option.verdict === "can't tell" ? w.unclear : { ...w, slower: w.notWorthSlower }
  const slower = knownGains(option.gains).find((g) => g.afterFpsHigh < g.before.averageFps)
  if (slower !== undefined) {
    const values = {
      title: ctx.titleName(slower.titleId),
      ...ratesOf(ctx, slower),
    }
    // With its frames in every game before it, the game alone is named.
    return [fill(areToldFps ? w.slowerIn : w.slower, values), said.slower]
  }
  const gain = headGain(option.gains, answer.inputs.question)
  const hz = displayOf(answer.inputs.question).refreshHz ?? Number.POSITIVE_INFINITY
  // What the display does not show is no reason to buy, and none to be told.
  const delta = gain === undefined ? 0 : risesBy(gain, hz)
  if (gain === undefined || delta <= 0) return [said.notWorthNothing]
  const isCut = delta < risesBy(gain)
  const line = isEstimate(gain.after)
    ? isCut
      ? said.notWorthShownEstimated
      : said.notWorthEstimated
    : isCut
      ? said.notWorthShown
      : said.notWorth
  return [
    fill(line, {
      title: ctx.titleName(gain.titleId),
      delta: figures.fps(delta),
      hz: figures.named('refreshHz', hz),
      price: ctx.money(option.price.netMinor),
    }),
  ]
}

/** In whole frames, as far as a display of so many a second shows them. */
const risesBy = (gain: Known, hz = Number.POSITIVE_INFINITY): number =>
  wholeOf(Math.min(gain.after.averageFps, hz)) - wholeOf(Math.min(gain.before.averageFps, hz))

/** Where money is not well spent, it is said: below the shop's floor, alone or on top of the pick. */
function worthOf(ctx: Context, option: Option): readonly string[] {
  const { words, figures, answer, pick } = ctx
  const w = words.roads
  if (!option.worthTheVisit) return notWorthOf(ctx, option, true)
  if (pick?.useful === undefined) return []
  const level = answer.ranking.groups.some(
    ([first, ...others]) =>
      (first === pick.id && others.includes(option.id)) || (first === option.id && others.includes(pick.id)),
  )
  if (level) return [w.level]
  const more = morePct(option, pick)
  if (more <= 0 || more >= answer.inputs.shop.policy.smallestGainPct) return []
  const gain = headGain(option.gains, answer.inputs.question)
  const same = knownGains(pick.gains).find((g) => g.titleId === gain?.titleId)
  const moreFps = gain === undefined || same === undefined ? 0 : risesBy(gain) - risesBy(same)
  const moreMinor = option.price.netMinor - pick.price.netMinor
  return gain !== undefined && moreFps > 0 && moreMinor > 0
    ? [
        fill(w.more, {
          title: ctx.titleName(gain.titleId),
          delta: figures.fps(moreFps),
          price: ctx.money(moreMinor),
        }),
        w.notForThese,
      ]
    : [w.notForThese]
}
