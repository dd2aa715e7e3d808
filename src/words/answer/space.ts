import { saySpace } from '../space.ts'
import type { Context } from './context.ts'
import type { Item, Letter } from './letter.ts'

/** Drives told in a letter: the cheapest by capacity; the page tells all. */
const TOLD_MOST = 3

/** What the machine takes, with the drives behind it where the owner asked for space. */
export function withSpace(ctx: Context, board: Letter['board']): Letter['board'] {
  const said = saySpace(
    ctx.answer,
    { ...ctx.figures, money: ctx.money },
    { part: ctx.partWords, finding: ctx.finding },
  )
  if (said === undefined) return board
  const told = said.rows.slice(0, TOLD_MOST)
  const items = told.map(
    ({ verdict, what, says }): Item => ({
      ...ctx.verdict(verdict),
      what,
      says: says.map((s) => ctx.gloss.add(s)),
    }),
  )
  const left = said.rows.length - told.length
  const more = [...said.notes, ...(left > 0 ? [ctx.some(ctx.tables.space.more, left)] : [])]
  return board === undefined
    ? { head: said.head, items, more }
    : { ...board, items: [...board.items, ...items], more: [...board.more, ...more] }
}
