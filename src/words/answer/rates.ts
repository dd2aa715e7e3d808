import type { End } from '../../core/gain/gain.ts'
import { FOUR_OF_FIVE_SD } from '../../core/gain/noise.ts'
import { outwards } from '../figures.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'
import type { Known } from './pick.ts'

/** Nobody ran it: the frame rate is worked out from other runs. */
export const isEstimate = ({ runIds }: End): boolean => runIds.length === 0

/**
 * Both frame rates as they stand in a sentence: "{title} goes from {before} to {after}". What was measured is a figure.
 * What was not is named an estimate in the same breath, afterwards with its interval: "from 42 to about 77 FPS
 * (estimated, 71 to 84)". At a cap it is "at least".
 */
export function ratesOf(ctx: Context, gain: Known): { readonly before: string; readonly after: string } {
  return { before: beforeOf(ctx, gain), after: afterOf(ctx, gain) }
}

function beforeOf(ctx: Context, { before, after, atLeast }: Known): string {
  const w = ctx.words.rates
  const fps = ctx.rateAt(before.averageFps)
  const said = !isEstimate(before) ? fps : fill(isEstimate(after) ? w.about : w.aboutEstimated, { fps })
  return atLeast?.before ? fill(w.atLeast, { fps: said }) : said
}

function afterOf(ctx: Context, gain: Known): string {
  const w = ctx.words.rates
  const { after, atLeast } = gain
  if (!isEstimate(after)) {
    const said = ctx.fpsAt(after.averageFps)
    return atLeast?.after ? fill(w.atLeast, { fps: said }) : said
  }
  return fill(w.estimatedAfter, {
    fps: aboutAfter(ctx, gain),
    ...ctx.figures.outwards(gain.afterFpsLow, gain.afterFpsHigh),
  })
}

/** "71 to 84 FPS": where four of five results lie, outwards to whole frames. */
export function rangeOf(ctx: Context, { afterFpsLow, afterFpsHigh }: Known): string {
  const { low, high } = outwards(afterFpsLow, afterFpsHigh)
  return fill(ctx.words.rates.range, { low: ctx.figures.number(low), high: ctx.figures.fps(high) })
}

/** Today's figure where a letter shows today alone. */
export function todayOf(ctx: Context, { before, sd, sdBefore = sd, atLeast }: Known): string {
  const w = ctx.words.rates
  const fps = before.averageFps
  const spread = Math.exp(FOUR_OF_FIVE_SD * sdBefore)
  const { low, high } = outwards(fps / spread, fps * spread)
  const said = isEstimate(before)
    ? fill(w.estimated, {
        fps: fill(w.range, { low: ctx.figures.number(low), high: ctx.figures.fps(high) }),
      })
    : ctx.fpsAt(fps)
  return atLeast?.before ? fill(w.atLeast, { fps: said }) : said
}

/** "about 77 FPS (71 to 84)", for a line that ends with its grade. */
export const aboutBetween = (ctx: Context, gain: Known): string =>
  isEstimate(gain.after)
    ? fill(ctx.words.rates.between, {
        fps: aboutAfter(ctx, gain),
        ...ctx.figures.outwards(gain.afterFpsLow, gain.afterFpsHigh),
      })
    : aboutAfter(ctx, gain)

/** "about 77 FPS", for a line that names its estimate and interval beside it. */
export const aboutAfter = (ctx: Context, { after, atLeast }: Known): string => {
  const w = ctx.words.rates
  const said = isEstimate(after)
    ? fill(w.about, { fps: ctx.fpsAt(after.averageFps) })
    : ctx.fpsAt(after.averageFps)
  return atLeast?.after ? fill(w.atLeast, { fps: said }) : said
}
