import type { Asked } from '../../core/asked/asked.ts'
import { rankOfVerdict } from '../../core/verdict.ts'
import { fill } from '../say.ts'
import type { AskedSaid } from './askedSaid.ts'
import type { Context } from './context.ts'
import { factNames } from './facts.ts'
import type { Letter } from './letter.ts'
import { loweredFirst } from './lowered.ts'
import type { Case } from './pick.ts'
import { isWorkOnly } from './workOnly.ts'

/** The one thing to do now, for the end of the letter. */
export function nextOf(ctx: Context, kind: Case, hasOther: boolean): Letter['next'] {
  const { next } = ctx.words
  return { head: next.head, says: [saidOf(ctx, kind), ...besideOf(ctx, kind, hasOther)].join(' ') }
}

/** Other ways with words of their own, and the run that would give what is missing. */
function besideOf({ pick, words: { next } }: Context, kind: Case, hasOther: boolean): readonly string[] {
  if (pick === undefined) return []
  const isRun = pick.gains.some((gain) => gain.grade === 'no number' && gain.wanted.length > 0)
  if (kind === 'fact') return isRun ? [next.alsoRun] : []
  return [...(hasOther ? [next.otherWay] : []), ...(isRun ? [next.firstRun] : [])]
}

function saidOf(ctx: Context, kind: Case): string {
  const { next } = ctx.words
  if (kind === 'fact') {
    const { yours } = factNames(ctx)
    if (yours.length === 0) return next.wait
    return fill(yours.length === 1 ? next.fact : next.facts, { facts: ctx.list(yours) })
  }
  if (ctx.pick !== undefined) return isWorkOnly(ctx.pick) ? next.does : next.buys
  if (kind === 'run') return next.run
  if (kind === 'games') return next.games
  const lowered = loweredFirst(ctx)
  return lowered === undefined ? next.keep : fill(next.lowered, lowered)
}

/** The same where something was asked by name. */
export function nextAsked(
  ctx: Context,
  { ask }: Asked,
  { verdict, asksFor, reasons }: Pick<AskedSaid, 'verdict' | 'asksFor' | 'reasons'>,
): Letter['next'] {
  const { next } = ctx.words
  const says = (): string => {
    if (ask === 'something is wrong') return next.look
    if (ask === 'will it run this')
      return reasons.items.some((item) => item.verdict === 'fits after work') ? next.changes : next.nothing
    if (ctx.pick !== undefined && rankOfVerdict(verdict) < rankOfVerdict("can't tell"))
      return isWorkOnly(ctx.pick) ? next.does : next.buys
    if (asksFor > 0) return next.answer
    return verdict === "can't tell" ? next.wait : next.nothing
  }
  return { head: next.head, says: says() }
}
