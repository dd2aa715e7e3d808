import type { Lowered } from '../../core/ranking/lowered.ts'
import { fill, oneLine } from '../say.ts'
import type { Context } from './context.ts'
import type { Item, Letter } from './letter.ts'

/** Settings told in a letter: the largest gains; the page tells all. */
const TOLD_MOST = 2

/** The roads with lower settings in front, because they cost nothing: the free thing first. */
export function withLowered(ctx: Context, roads: Letter['roads']): Letter['roads'] {
  const items = (ctx.answer.lowered ?? []).slice(0, TOLD_MOST).map((one) => itemOf(ctx, one))
  if (items.length === 0) return roads
  const { lowered, roads: w } = ctx.words
  if (roads === undefined) return { head: lowered.head, items }
  // "Two other roads" would count wrong.
  return { head: roads.head === w.headTwo ? w.head : roads.head, items: [...items, ...roads.items] }
}

function itemOf(ctx: Context, one: Lowered): Item {
  const w = ctx.words.lowered
  const what = ctx.list(one.what.map(oneLine))
  const { figures } = ctx
  const after = ctx.fpsAt(one.after.averageFps)
  const values = {
    title: ctx.titleName(one.titleId),
    what,
    before: ctx.rateAt(one.before.averageFps),
    after: one.isAtLeast ? fill(ctx.words.rates.atLeast, { fps: after }) : after,
    low: figures.number(Math.floor(one.afterFpsLow)),
    high: figures.number(Math.ceil(one.afterFpsHigh)),
    target: figures.fps(ctx.answer.inputs.question.targetFps),
  }
  return {
    ...{ verdict: 'fits', word: w.word },
    what: fill(w.what, values),
    says: [
      w.first,
      fill(one.isAtLeast ? w.gainAtLeast : w.gain, values),
      ...(one.reachesTarget ? [fill(w.reaches, values)] : []),
      fill(w.looks, values),
      ...(one.before.onThisMachine && one.after.onThisMachine ? [] : [w.elsewhere]),
    ],
  }
}
