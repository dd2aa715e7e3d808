import type { Option } from '../../core/ranking/option.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'
import { knownGains } from './pick.ts'
import { goesOf } from './roads.ts'
import { isWorkOnly } from './workOnly.ts'

/**
 * What each of the owner's games goes from and to with it, for a part that is told in passing; where there is no
 * number, that there is none and why. Nothing where no game is known, for work, and of games that `told` names.
 */
export function fpsOf(ctx: Context, option: Option, told = ''): readonly string[] {
  const w = ctx.words.board
  const { wanted } = ctx.answer.inputs.question
  if (wanted.length === 0 || isWorkOnly(option)) return []
  const known = knownGains(option.gains)
  if (known.length === 0 || option.useful === undefined) {
    const none = option.gains.find((gain) => gain.grade === 'no number')
    return [w.noFps[none?.grade === 'no number' ? none.because : 'no run after']]
  }
  const lost = option.useful.missingTitleIds.map((id) => ctx.titleName(id))
  return [
    ...(option.verdict === "can't tell" ? [w.ifIn] : []),
    ...known
      .filter(({ titleId }) => !told.includes(ctx.titleName(titleId)))
      .map((gain) => goesOf(ctx, option, gain)),
    ...(lost.length > 0 ? [fill(ctx.words.roads.missing, { titles: ctx.list(lost) })] : []),
  ]
}
