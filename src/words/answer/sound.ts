import type { Option } from '../../core/ranking/option.ts'
import { saySound, sayTooLoud } from '../quiet.ts'
import type { Context } from './context.ts'
import type { Letter } from './letter.ts'

/** Beside an option, where the owner asked for quiet. */
export const soundLines = (ctx: Context, { change }: Pick<Option, 'change'>): string[] =>
  saySound(change, ctx.answer.sound, ctx.figures, ctx.partWords, ctx.soundTold)

/** The roads, each with its sound; `shown` are their options in the same order. */
export function withSound(ctx: Context, roads: Letter['roads'], shown: readonly Option[]): Letter['roads'] {
  if (roads === undefined || ctx.answer.sound === undefined) return roads
  return {
    ...roads,
    items: roads.items.map((item, i) => {
      const option = shown[i]
      return option === undefined ? item : { ...item, says: [...item.says, ...soundLines(ctx, option)] }
    }),
  }
}

/** What was left out for its sound, with the levels: the parts themselves, and companions that were too loud. */
export function tooLoudLine(ctx: Context): string {
  const { sound, ranking } = ctx.answer
  const ids = ranking.ruledOut.filter(({ wish }) => wish === 'quiet').map(({ partId }) => partId)
  return sound === undefined ? '' : sayTooLoud([...new Set(ids)], sound, ctx.figures, ctx.partWords).join(' ')
}
