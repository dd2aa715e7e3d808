import type { TitleGain } from '../../core/gain/gain.ts'
import { isAtTarget, mayReach } from '../../core/ranking/draftOption.ts'
import { outwards } from '../figures.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'
import { type Known, knownGains } from './pick.ts'
import { aboutAfter, rangeOf } from './rates.ts'

/** Games that are named; further ones are counted. */
export const NAMED_MOST = 2

/** Games whose result lies around what is wanted: they may stay below it. */
export const mayStayBelow = (ctx: Context, gains: readonly TitleGain[]): readonly Known[] =>
  knownGains(gains).filter((gain) => mayReach(gain, ctx.answer.inputs.question.targetFps))

/** "Long Winter (58 to 69 FPS)", the further ones counted. */
export function namedWithRange(ctx: Context, gains: readonly Known[]): string {
  const { lead } = ctx.words
  const named = gains
    .slice(0, NAMED_MOST)
    .map((gain) => fill(lead.mayEach, { title: ctx.titleName(gain.titleId), range: rangeOf(ctx, gain) }))
  const left = gains.length - named.length
  return ctx.list(left === 0 ? named : [...named, ctx.some(lead.belowMore, left)])
}

/** Which games may stay below what is wanted, where others reach it. */
export function mayOf(ctx: Context, gains: readonly TitleGain[]): readonly string[] {
  const may = mayStayBelow(ctx, gains)
  return may.length === 0
    ? []
    : [
        ctx.some(ctx.words.lead.moreMay, may.length, {
          titles: namedWithRange(ctx, may),
          target: ctx.figures.fps(ctx.answer.inputs.question.targetFps),
        }),
      ]
}

/**
 * How sure it is that games reach what is wanted, to be put behind it. Empty where the intervals carry a plain yes; something where a game counts as there
 * though four of five results reach below what is wanted: what the interval does not carry is no plain yes.
 */
export function howSure(ctx: Context, gains: readonly TitleGain[]): string {
  const open = openOf(ctx, gains)
  const { lead } = ctx.words
  if (open.length === 0) return ''
  // With the spread known, a game counts from four of five on; else by its mean.
  return open.every(({ sdAfter }) => sdAfter !== undefined) ? lead.inMostCases : lead.onAverage
}

/** Games that count as there though their range reaches below what is wanted. */
function openOf(ctx: Context, gains: readonly TitleGain[]): readonly Known[] {
  const { targetFps } = ctx.answer.inputs.question
  return knownGains(gains).filter(
    (gain) => isAtTarget(gain, targetFps) && lowOf(gain) < Math.floor(targetFps),
  )
}

const lowOf = ({ afterFpsLow, afterFpsHigh }: Known): number => outwards(afterFpsLow, afterFpsHigh).low

/** Beside "60 FPS or more in four of five cases" stands what is expected and what is promised: its range begins lower. */
export function lowEndOf(ctx: Context, gains: readonly TitleGain[]): readonly string[] {
  const [lowest] = openOf(ctx, gains).toSorted((a, b) => lowOf(a) - lowOf(b))
  if (lowest === undefined) return []
  const { lead } = ctx.words
  return [
    fill(lead.lowEnd, {
      title: ctx.titleName(lowest.titleId),
      after: aboutAfter(ctx, lowest),
      low: ctx.figures.fps(lowOf(lowest)),
    }),
  ]
}
