import type { AnswerWords } from '../en/answer.ts'
import { type Filling, fill, oneLine } from '../say.ts'
import { type Context, optionWords } from './context.ts'
import type { Letter } from './letter.ts'
import { type Case, headGain, type Known } from './pick.ts'
import { isFree, isWorkOnly } from './workOnly.ts'

/** Subject lines longer than this are cut by phones. */
export const SUBJECT_MOST = 50
export const PREHEADER_MOST = 90

/** Parts that a missing fact decides about, named in the second sentence. */
const DECIDED_MOST = 2

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
  const gain = headGain(pick?.gains ?? [], question)
  const net = pick?.price.netMinor ?? 0
  const unclear = pick === undefined ? answer.ranking.needsAFact.slice(0, DECIDED_MOST) : [pick]
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
      parts: ctx.list(unclear.map((o) => optionWords(ctx, o))),
      ...(gain && {
        title: ctx.titleName(gain.titleId),
        before: figures.number(gain.before.averageFps),
        after: figures.fps(gain.after.averageFps),
      }),
    },
  }
}

/** Only these letters put a gain into subject and first sentence. */
const promises = (kind: Case): boolean => kind === 'yes' || kind === 'partly'

const isOver = ({ answer, pick }: Context): boolean =>
  pick?.withinBudget === false && answer.inputs.question.budgetMinor !== undefined

const shown = (fps: number): number => Math.round(fps)
const isLevel = (gain: Known): boolean => shown(gain.after.averageFps) <= shown(gain.before.averageFps)

const firstThatFits = (lines: readonly string[], most: number): string =>
  lines.find((l) => l.length <= most) ?? lines.at(-1) ?? ''

function subjectOf({ ctx, kind, gain, values }: Facts): string {
  const w = ctx.words.subject
  const games = ctx.answer.inputs.question.wanted.length
  if (isFree(ctx.pick)) return fill(ctx.words.work.subject, values)
  if (ctx.pick !== undefined && promises(kind) && gain !== undefined) {
    if (kind === 'yes' && !isOver(ctx)) return ctx.some(w.yes, games, values)
    if (isLevel(gain)) return fill(w.level, values)
    const rise = [fill(w.rise, values), fill(w.riseShort, values)]
    const reached = ctx.pick.titlesAtTarget
    const some = games > 1 && reached > 0 && !isOver(ctx)
    const lines = some ? [ctx.some(w.partly, reached, values), ...rise] : rise
    return firstThatFits(lines, SUBJECT_MOST)
  }
  return fill(ofCase(kind, w), values)
}

/** The line for a letter that promises no gain. */
function ofCase(kind: Case, w: AnswerWords['subject']): string {
  switch (kind) {
    case 'fact':
      return w.fact
    case 'run':
      return w.run
    case 'games':
      return w.games
    case 'reached':
      return w.reached
    case 'nothing':
      return w.nothing
    case 'not worth':
      return w.notWorth
    default:
      return w.pickWithoutNumber
  }
}

function preheaderOf({ ctx, kind, values }: Facts): string {
  const w = ctx.words.preheader
  if (isFree(ctx.pick)) return ctx.words.work.preheader
  switch (kind) {
    case 'yes':
      return firstThatFits([fill(w.pick, values), w.pickShort], PREHEADER_MOST)
    case 'partly':
      return w.partly
    case 'without number':
      return w.pickShort
    case 'fact':
      return w.fact
    case 'run':
      return w.run
    case 'games':
      return w.games
    case 'reached':
      return w.reached
    case 'nothing':
      return w.nothing
    case 'not worth':
      return w.notWorth
  }
}

/** The answer in one sentence. */
function answerOf({ ctx, kind, gain, values }: Facts): string {
  const w = ctx.words.lead
  const { pick, answer } = ctx
  if (pick !== undefined && promises(kind) && gain !== undefined) {
    if (isLevel(gain)) return fill(w.level, values)
    if (pick.price.netMinor < 0) return fill(w.gainBack, values)
    if (isOver(ctx)) return fill(w.over, values)
    if (isFree(pick)) return fill(ctx.words.work.leadFree, values)
    if (isWorkOnly(pick)) return fill(ctx.words.work.lead, values)
    return fill(kind === 'yes' ? w.yes : w.partly, values)
  }
  if (isWorkOnly(pick) && kind === 'without number') return ctx.words.work.leadPlain
  switch (kind) {
    case 'fact':
      return w.fact
    case 'run':
      return w.run
    case 'games':
      return w.games
    case 'reached':
      return ctx.some(w.reached, answer.inputs.question.wanted.length, values)
    case 'nothing':
      return w.nothing
    case 'not worth':
      return w.notWorth
    default:
      return fill(w.withoutNumber, values)
  }
}

function moreOf({ ctx, kind, gain, values }: Facts): readonly string[] {
  const w = ctx.words.lead
  const { pick, answer, figures } = ctx
  const games = answer.inputs.question.wanted.length
  ctx.gloss.note('FPS')
  if (kind === 'fact') return [fill(w.decides, values), w.fps]
  if (pick === undefined) {
    const honest = kind === 'not worth' || kind === 'nothing' || kind === 'reached' ? [w.keepMoney] : []
    const run = kind === 'run' ? [w.oneRun] : []
    return kind === 'games' ? [] : [...honest, ...run, w.fps]
  }
  if (gain === undefined || pick.useful === undefined) return [w.fps]
  const low = gain.after.low1Fps
  const reach =
    pick.titlesAtTarget >= games
      ? games === 2
        ? fill(w.bothReach, values)
        : ctx.some(w.allReach, games, values)
      : pick.titlesAtTarget === 0
        ? games === 2
          ? fill(w.neitherReaches, values)
          : ctx.some(w.noneReach, games, values)
        : ctx.some(w.someReach, pick.titlesAtTarget, values)
  const slow = low === undefined ? w.noSlowMoments : fill(w.slowMoments, { low: figures.number(low) })
  return [w.fps, reach, slow, ...(pick.worthTheVisit ? [] : [w.belowFloor])]
}

export function leadOf(
  ctx: Context,
  kind: Case,
): { readonly subject: string; readonly preheader: string; readonly lead: Letter['lead'] } {
  const facts = factsOf(ctx, kind)
  return {
    subject: subjectOf(facts),
    preheader: preheaderOf(facts),
    lead: { answer: answerOf(facts), more: moreOf(facts) },
  }
}
