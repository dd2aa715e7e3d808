import type { TitleGain } from '../../core/gain/gain.ts'
import { isToRunAgain } from '../../core/gain/useful.ts'
import { isAtTarget, mayReach, reachesTarget } from '../../core/ranking/draftOption.ts'
import type { Option } from '../../core/ranking/option.ts'
import { wholeOf } from '../figures.ts'
import { type Filling, fill, oneLine } from '../say.ts'
import type { Tables } from '../tables.ts'
import { type Context, goodsWords, optionWords, theGoods } from './context.ts'
import { asked, decidedWords, decidingFacts } from './facts.ts'
import { decidedPrice, factsSaid, howToOf, ownPartOf, priceOf } from './leadFacts.ts'
import { namedFirst, roadEnd } from './leadNamed.ts'
import type { Letter } from './letter.ts'
import { type Case, headGain, type Known, knownGains, nextStep, toRunAgain } from './pick.ts'
import { aboutAfter, isEstimate, ratesOf } from './rates.ts'
import { howSure, lowEndOf, mayOf, mayStayBelow, NAMED_MOST, namedWithRange } from './reached.ts'
import { isFree, isWorkOnly } from './workOnly.ts'

/** Subject lines longer than this are cut by phones. */
export const SUBJECT_MOST = 50
export const PREHEADER_MOST = 90

type Facts = {
  readonly ctx: Context
  readonly kind: Case
  readonly gain: Known | undefined
  readonly values: Filling
}

/** The figures that subject, preheader and first sentence have in common. */
function factsOf(ctx: Context, kind: Case): Facts {
  const { answer, pick, figures } = ctx
  const { question, machine } = answer.inputs
  const games = question.wanted.length
  const gain = gainToLead(ctx, kind)
  const net = pick?.price.netMinor ?? 0
  return {
    ctx,
    kind,
    gain,
    values: {
      tag: oneLine(machine.tag),
      target: figures.fps(question.targetFps),
      price: ctx.money(net),
      amount: ctx.money(-net),
      budget: ctx.money(question.budgetMinor ?? 0),
      m: ctx.count(games),
      part: pick === undefined ? '' : optionWords(ctx, pick),
      parts: kind === 'fact' ? decidedWords(ctx) : '',
      ...(gain && {
        title: ctx.titleName(gain.titleId),
        ...ratesOf(ctx, gain),
      }),
    },
  }
}

/** Where some games reach what is wanted and others may not, one that does leads: the other would not show it. */
function gainToLead(ctx: Context, kind: Case): Known | undefined {
  const { question } = ctx.answer.inputs
  const gains = ctx.pick?.gains ?? []
  const may = mayStayBelow(ctx, gains)
  const there = knownGains(gains).filter(
    (gain) =>
      isAtTarget(gain, question.targetFps) &&
      gain.before.averageFps < question.targetFps &&
      !may.includes(gain) &&
      !isToRunAgain(gain),
  )
  const lead = kind === 'partly' ? headGain(there, question) : undefined
  return lead ?? headGain(gains, question)
}

/** Only these letters put a gain into subject and first sentence. */
const promises = (kind: Case): boolean => kind === 'yes' || kind === 'partly'

const isOver = ({ answer, pick }: Context): boolean =>
  pick?.withinBudget === false && answer.inputs.question.budgetMinor !== undefined

const shown = (fps: number): number => wholeOf(fps)
const isLevel = (gain: Known): boolean => shown(gain.after.averageFps) <= shown(gain.before.averageFps)

const firstThatFits = (lines: readonly string[], most: number): string =>
  lines.find((l) => l.length <= most) ?? lines.at(-1) ?? ''

function subjectOf({ ctx, kind, gain, values: told }: Facts): string {
  const w = ctx.words.subject
  // A subject is cut by phones: an estimate is "about" there, and its interval stands in the first sentence.
  const values = gain === undefined ? told : { ...told, after: aboutAfter(ctx, gain) }
  const games = ctx.answer.inputs.question.wanted.length
  if (isFree(ctx.pick) && kind !== 'fact') return fill(ctx.words.work.subject, values)
  if (ctx.pick !== undefined && promises(kind) && gain !== undefined) {
    if (kind === 'yes' && !isOver(ctx)) {
      if (isEstimate(gain.after)) return ctx.some(w.yesEstimated, games, values)
      return ctx.some(howSure(ctx, ctx.pick.gains) === '' ? w.yes : w.yesProbably, games, values)
    }
    if (isLevel(gain)) return fill(w.level, values)
    if (isOver(ctx) && inBudget(ctx) === undefined)
      return firstThatFits([fill(w.over, values), fill(w.overShort, values)], SUBJECT_MOST)
    const rise = [fill(w.rise, values), fill(w.riseShort, values)]
    const reached = ctx.pick.titlesAtTarget
    // "One of three" would count the games that have no number as missing it.
    const some = games > 1 && reached > 0 && !isOver(ctx) && withoutNumber(ctx.pick).length === 0
    const lines = some ? [ctx.some(w.partly, reached, values), ...rise] : rise
    return firstThatFits(lines, SUBJECT_MOST)
  }
  if (kind === 'fact') return ctx.some(w.fact, decidingFacts(ctx), values)
  if (ctx.pick === undefined && namedFirst(ctx, kind).isNotWorth) return fill(w.namedNotWorth, values)
  if (kind === 'nothing' && isShelfEmpty(ctx)) return fill(w.emptyShelf, values)
  return fill(ofCase(kind, w), values)
}

const isShelfEmpty = ({ answer }: Context): boolean =>
  answer.ranking.ruledOut.length === 0 && !answer.inputs.shelf.some(({ quantity }) => quantity > 0)

/** The line for a letter that promises no gain. */
function ofCase(kind: Case, w: Tables['answer']['subject']): string {
  switch (kind) {
    case 'run':
      return w.run
    case 'games':
      return w.games
    case 'reached':
      return w.reached
    case 'nothing':
      return w.nothing
    case 'over budget':
      return w.overBudget
    case 'not worth':
      return w.notWorth
    default:
      return w.pickWithoutNumber
  }
}

function preheaderOf({ ctx, kind, values }: Facts): string {
  const w = ctx.words.preheader
  if (isFree(ctx.pick) && kind !== 'fact') return ctx.words.work.preheader
  switch (kind) {
    case 'yes':
      return firstThatFits([fill(w.pick, values), w.pickShort], PREHEADER_MOST)
    case 'partly':
      return w.partly
    case 'without number':
      return w.pickShort
    case 'fact':
      return asked(ctx) === 'none' ? w.factOurs : ctx.some(w.fact, decidingFacts(ctx))
    case 'run':
      return w.run
    case 'games':
      return w.games
    case 'reached':
      return w.reached
    case 'nothing':
      return w.nothing
    case 'over budget':
      return w.overBudget
    case 'not worth':
      return w.notWorth
  }
}

/** The answer in one sentence; before it, what is asked by name. */
function answerOf(facts: Facts): string {
  return [...namedFirst(facts.ctx, facts.kind).says, plainAnswerOf(facts)].join(' ')
}

function plainAnswerOf({ ctx, kind, gain, values }: Facts): string {
  const w = ctx.words.lead
  const { pick, answer } = ctx
  if (pick !== undefined && promises(kind) && gain !== undefined) {
    if (isLevel(gain)) return fill(isFree(pick) ? ctx.words.work.level : w.level, values)
    if (pick.price.netMinor < 0) return fill(w.gainBack, values)
    if (isOver(ctx)) return [budgetOf(ctx), fill(w.over, values)].join(' ')
    if (isFree(pick)) return fill(ctx.words.work.leadFree, values)
    if (isWorkOnly(pick)) return fill(ctx.words.work.lead, values)
    if (kind !== 'yes') return fill(w.partly, values)
    if (isEstimate(gain.after)) return fill(w.estimatedYes, values)
    return fill(howSure(ctx, pick.gains) === '' ? w.yes : w.probablyYes, values)
  }
  if (isWorkOnly(pick) && kind === 'without number') return ctx.words.work.leadPlain
  switch (kind) {
    case 'fact':
      return factsSaid(ctx)
    case 'run':
      return runSaid(ctx)
    case 'games':
      return w.games
    case 'reached':
      return ctx.some(
        knownGains(answer.ranking.today).some((g) => isEstimate(g.after)) ? w.reachedEstimated : w.reached,
        answer.inputs.question.wanted.length,
        values,
      )
    case 'nothing':
      return isShelfEmpty(ctx) ? w.emptyShelf : w.nothing
    case 'over budget':
      return budgetOf(ctx)
    case 'not worth':
      return w.notWorth
    default:
      return fill(w.withoutNumber, values)
  }
}

/** What fits and has no number, by name where it is one thing. */
function runSaid(ctx: Context): string {
  const w = ctx.words.lead
  const [only, ...others] = ctx.answer.ranking.withoutNumber.filter((o) => !isWorkOnly(o))
  return only === undefined || others.length > 0
    ? w.run
    : fill(w.runNamed, { parts: goodsWords(ctx, only), price: ctx.money(only.price.netMinor) })
}

function moreOf({ ctx, kind, gain, values }: Facts): readonly string[] {
  const w = ctx.words.lead
  const { pick, answer, figures } = ctx
  const games = answer.inputs.question.wanted.length
  ctx.gloss.note('FPS')
  if (kind === 'fact') {
    const how = asked(ctx) === 'none' ? [] : howToOf(ctx)
    const decides = ctx.some(w.decides, decidingFacts(ctx), values)
    return [decides, ...decidedPrice(ctx), ...ownPartOf(ctx), ...how, w.noPromiseYet, ...roadEnd(ctx), w.fps]
  }
  if (pick === undefined) {
    const keeps: readonly Case[] = ['not worth', 'nothing', 'reached', 'over budget']
    const honest = keeps.includes(kind) ? [w.keepMoney] : []
    const next = kind === 'over budget' ? nextOf(ctx) : []
    const run = kind === 'run' ? [w.oneRun] : []
    const slow = kind === 'reached' ? slowToday(ctx) : []
    const takes = kind === 'nothing' ? [w.nothingTakes] : []
    return kind === 'games' ? [] : [...honest, ...slow, ...takes, ...next, ...run, ...roadEnd(ctx), w.fps]
  }
  if (gain === undefined || pick.useful === undefined) return [...roadEnd(ctx), w.fps]
  const low = gain.after.low1Fps
  const may = mayStayBelow(ctx, pick.gains)
  const open = withoutNumber(pick)
  const unknown = open.map((g) => ctx.titleName(g.titleId))
  const reachValues = { ...values, surely: howSure(ctx, pick.gains) }
  const reach =
    pick.titlesAtTarget >= games
      ? games === 2
        ? fill(w.bothReach, reachValues)
        : ctx.some(w.allReach, games, reachValues)
      : pick.titlesAtTarget === 0
        ? may.length > 0
          ? ctx.some(w.onlyMay, may.length, { ...values, titles: namedWithRange(ctx, may) })
          : games === 2 && unknown.length === 0
            ? fill(w.neitherReaches, values)
            : ctx.some(w.noneReach, unknown.length === 0 ? games : 1, values)
        : open.length > 0
          ? namedReach(ctx, pick, reachValues)
          : ctx.some(w.someReach, pick.titlesAtTarget, reachValues)
  const more = pick.titlesAtTarget > 0 ? [...lowEndOf(ctx, pick.gains), ...mayOf(ctx, pick.gains)] : []
  const left =
    unknown.length === 0
      ? []
      : [fill(w.noNumberFor, { titles: ctx.list(unknown) }), ...alreadyThere(ctx, open, values)]
  const slowValues = { ...values, low: low === undefined ? '' : figures.number(low) }
  const slow = ctx.some(low === undefined ? w.noSlowMoments : w.slowMoments, games, slowValues)
  const floor = pick.worthTheVisit ? [] : [w.belowFloor]
  const again = runAgainOf(ctx, pick.gains)
  return [w.fps, reach, ...more, ...again, ...belowOf(ctx, gain), slow, ...left, ...roadEnd(ctx), ...floor]
}

const withoutNumber = (pick: Option): readonly TitleGain[] =>
  pick.gains.filter(({ grade }) => grade === 'no number')

/** By name where some games have no number: a count would pass those off as missing it. */
function namedReach(ctx: Context, { gains, titlesAtTarget }: Option, values: Filling): string {
  const w = ctx.words.lead
  const there = gains.filter((gain) => isAtTarget(gain, ctx.answer.inputs.question.targetFps))
  return there.length === titlesAtTarget && there.length <= NAMED_MOST
    ? ctx.some(w.namedReach, there.length, {
        ...values,
        titles: ctx.list(there.map((g) => ctx.titleName(g.titleId))),
      })
    : ctx.some(w.someReach, titlesAtTarget, values)
}

/** Games without a number for afterwards that average what is wanted already. */
function alreadyThere(ctx: Context, open: readonly TitleGain[], values: Filling): readonly string[] {
  const { targetFps } = ctx.answer.inputs.question
  const there = open.filter((g) => g.before !== undefined && reachesTarget(g.before.averageFps, targetFps))
  const titles = ctx.list(there.map((g) => ctx.titleName(g.titleId)))
  return there.length === 0 ? [] : [ctx.some(ctx.words.lead.already, there.length, { ...values, titles })]
}

/** The slow moments of the game that has the slowest, where all average what is wanted. */
function slowToday(ctx: Context): readonly string[] {
  const [slowest] = knownGains(ctx.answer.ranking.today)
    .flatMap(({ titleId, before: { low1Fps } }) => (low1Fps === undefined ? [] : [{ titleId, low1Fps }]))
    .sort((a, b) => a.low1Fps - b.low1Fps)
  if (slowest === undefined) return []
  const values = { title: ctx.titleName(slowest.titleId), low: ctx.figures.number(slowest.low1Fps) }
  return [ctx.some(ctx.words.lead.slowMoments, ctx.answer.inputs.question.wanted.length, values)]
}

/** Games in which a run does not fit the others: nothing is promised there before they are run again. */
export function runAgainOf(ctx: Context, gains: readonly TitleGain[]): readonly string[] {
  const titles = toRunAgain(gains).map(ctx.titleName)
  return titles.length === 0
    ? []
    : [ctx.some(ctx.words.lead.runAgain, titles.length, { titles: ctx.list(titles) })]
}

/** Which games miss the target, each with its figure; the game of the first sentence has its figure there. */
function belowOf(ctx: Context, head: Known): readonly string[] {
  const { pick, answer } = ctx
  const { targetFps } = answer.inputs.question
  const w = ctx.words.lead
  const below = knownGains(pick?.gains ?? []).filter(
    (g) => g.after.averageFps < targetFps && !mayReach(g, targetFps) && !isToRunAgain(g),
  )
  const others = below.filter((g) => g.titleId !== head.titleId)
  // Where nothing reaches it, the first sentence has told its own game; else it must not look like one that does.
  const told = pick?.titlesAtTarget === 0 ? others : below
  const at = (g: Known) => ({
    title: ctx.titleName(g.titleId),
    after: ratesOf(ctx, g).after,
  })
  const [first, ...more] = told
  if (first === undefined) return []
  if (more.length === 0) return [fill(w.below, at(first))]
  const named = told.slice(0, NAMED_MOST).map((g) => fill(w.belowEach, at(g)))
  const left = told.length - named.length
  return [
    fill(w.belowMany, { titles: ctx.list(left === 0 ? named : [...named, ctx.some(w.belowMore, left)]) }),
  ]
}

/** The best that the budget pays for, where it is worth the visit. */
function inBudget({ answer }: Context): Option | undefined {
  const { ranked, bestInBudgetId } = answer.ranking
  return ranked.find((o) => o.id === bestInBudgetId && o.worthTheVisit)
}

/** What the budget buys, before what is above it. What fits in it and has no number is not called worthless. */
function budgetOf(ctx: Context): string {
  const { answer } = ctx
  const { question } = answer.inputs
  const w = ctx.words.lead
  const budget = ctx.money(question.budgetMinor ?? 0)
  const best = inBudget(ctx)
  const gain = best && headGain(best.gains, question)
  if (best !== undefined && gain !== undefined) {
    return fill(w.inBudget, {
      budget,
      parts: theGoods(ctx, best, best.change.add, 'with'),
      title: ctx.titleName(gain.titleId),
      ...ratesOf(ctx, gain),
    })
  }
  const { withoutNumber, needsAFact } = answer.ranking
  const open = [...withoutNumber, ...needsAFact].some((o) => o.withinBudget && o.price.netMinor > 0)
  return fill(open ? w.budgetUnsure : w.budgetNothing, { budget })
}

/** What the next step would cost and give; that is told, and nobody is asked to order it. */
function nextOf(ctx: Context): readonly string[] {
  const step = nextStep(ctx.answer)
  if (step === undefined) return []
  const w = ctx.words.lead
  const gain = headGain(step.gains, ctx.answer.inputs.question)
  const price = fill(w.nextStep, { ...priceOf(ctx, step), parts: goodsWords(ctx, step) })
  if (gain === undefined) return [price, w.nextAsk]
  const values = {
    title: ctx.titleName(gain.titleId),
    ...ratesOf(ctx, gain),
  }
  return [price, fill(w.nextGain, values), w.nextAsk]
}

export function leadOf(
  ctx: Context,
  kind: Case,
): { readonly subject: string; readonly preheader: string; readonly lead: Letter['lead'] } {
  const facts = factsOf(ctx, kind)
  return {
    subject: subjectOf(facts),
    preheader: preheaderOf(facts),
    lead: {
      answer: answerOf(facts),
      more: kind === 'fact' ? moreOf(facts) : [...ownPartOf(ctx), ...moreOf(facts)],
    },
  }
}
