import { sayLater } from '../later.ts'
import { type Context, goodsWords } from './context.ts'
import type { Item, Letter } from './letter.ts'

/** Only what is the advice, for letters that answer something else first. */
export type LaterTold = 'all' | 'advice'

/** Roads that lead past today's shelf stand behind the others; one that wins is told right behind the answer too. */
export function withLater(
  ctx: Context,
  { lead, roads }: Pick<Letter, 'lead' | 'roads'>,
  told: LaterTold = 'all',
): Pick<Letter, 'lead' | 'roads'> {
  const said = sayLater(
    ctx.answer,
    { ...ctx.figures, money: ctx.money },
    {
      part: ctx.partWords,
      option: (option) => goodsWords(ctx, option),
    },
  ).filter(({ wins }) => told === 'all' || wins)
  if (said.length === 0) return { lead, roads }
  const w = ctx.tables.later
  const items = said.map(
    ({ kind, what, says }): Item => ({ verdict: 'fits', word: w[kind].word, what, says }),
  )
  const first = said.flatMap((one) => one.lead ?? [])
  // "Two other roads" would count wrong.
  const { head, headTwo } = ctx.words.roads
  const mixed = roads && { ...roads, head: roads.head === headTwo ? head : roads.head }
  return {
    lead: { ...lead, more: [...first, ...lead.more] },
    roads: mixed === undefined ? { head: w.head, items } : { ...mixed, items: [...mixed.items, ...items] },
  }
}
