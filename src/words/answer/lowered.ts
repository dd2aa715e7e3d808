import type { Lowered } from '../../core/ranking/lowered.ts'
import { type Filling, fill } from '../say.ts'
import { type Context, sliderIn } from './context.ts'
import type { Item, Letter } from './letter.ts'

/** Settings told in a letter: the largest gains; the page tells all. */
const TOLD_MOST = 2

/**
 * Lower settings where they belong, because they cost nothing: where nothing is recommended, the first of them right
 * behind the answer; the others, and all of them beside a pick, in front of the roads.
 */
export function withLowered(
  ctx: Context,
  { lead, roads }: Pick<Letter, 'lead' | 'roads'>,
): Pick<Letter, 'lead' | 'roads'> {
  const told = (ctx.answer.lowered ?? []).slice(0, TOLD_MOST)
  const [first, ...others] = told
  if (first === undefined) return { lead, roads }
  const isLead = ctx.pick === undefined
  return {
    lead: isLead ? { ...lead, more: [...leadOf(ctx, first), ...lead.more] } : lead,
    roads: inFront(
      ctx,
      roads,
      (isLead ? others : told).map((one) => itemOf(ctx, one)),
    ),
  }
}

/** What the first of them says to do, where it stands right behind the answer. */
export function loweredFirst(ctx: Context): Filling | undefined {
  const [first] = ctx.answer.lowered ?? []
  return first === undefined ? undefined : valuesOf(ctx, first)
}

function inFront(ctx: Context, roads: Letter['roads'], items: readonly Item[]): Letter['roads'] {
  const { lowered, roads: w } = ctx.words
  if (items.length === 0) return roads
  if (roads === undefined) return { head: lowered.head, items }
  // "Two other roads" would count wrong, and what costs nothing is above no budget.
  const head = ctx.pick === undefined ? lowered.headMixed : roads.head === w.headTwo ? w.head : roads.head
  return { head, items: [...items, ...roads.items] }
}

function valuesOf(ctx: Context, one: Lowered): Filling {
  const { figures } = ctx
  const after = ctx.fpsAt(one.after.averageFps)
  return {
    title: ctx.titleName(one.titleId),
    what: ctx.list(one.what.map((what) => sliderIn(ctx.words, what))),
    before: ctx.rateAt(one.before.averageFps),
    after: one.isAtLeast ? fill(ctx.words.rates.atLeast, { fps: after }) : after,
    ...figures.outwards(one.afterFpsLow, one.afterFpsHigh),
    target: figures.fps(ctx.answer.inputs.question.targetFps),
  }
}

/** What is said about it wherever it stands. */
const honestyOf = (ctx: Context, one: Lowered, values: Filling): readonly string[] => {
  const w = ctx.words.lowered
  return [
    ...(one.reachesTarget ? [fill(w.reaches, values)] : []),
    fill(w.looks, values),
    ...(one.before.onThisMachine && one.after.onThisMachine ? [] : [w.elsewhere]),
  ]
}

function leadOf(ctx: Context, one: Lowered): readonly string[] {
  const values = valuesOf(ctx, one)
  return [fill(ctx.words.lowered.lead, values), ...honestyOf(ctx, one, values)]
}

function itemOf(ctx: Context, one: Lowered): Item {
  const w = ctx.words.lowered
  const values = valuesOf(ctx, one)
  return {
    ...{ verdict: 'fits', word: w.word },
    what: fill(w.what, values),
    says: [w.first, fill(one.isAtLeast ? w.gainAtLeast : w.gain, values), ...honestyOf(ctx, one, values)],
  }
}
