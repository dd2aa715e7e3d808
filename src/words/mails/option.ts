import type { Answer } from '../../core/answer.ts'
import { type Context, contextOf, optionWords } from '../answer/context.ts'
import { knownOf } from '../answer/known.ts'
import type { Letter } from '../answer/letter.ts'
import { headGain, pickOf } from '../answer/pick.ts'
import { ratesOf } from '../answer/rates.ts'
import { priceWhatOf } from '../answer/strip.ts'
import { letterOf } from '../answer.ts'
import { oneLine } from '../say.ts'
import type { Block } from './notice.ts'

/** What a mail tells of one option of a computed answer; blocks as in the answer's own letter. */
export type OptionSaid = {
  readonly ctx: Context
  readonly letter: Letter
  readonly parts: string
  /** Below the smallest gain that the shop would sell. */
  readonly isBelowFloor: boolean
  readonly price: string
  /** "in all, fitted". */
  readonly priceWhat: string
  /** The game of the first sentence with both frame rates; absent where there is no number. */
  readonly rise?: { readonly title: string; readonly before: string; readonly after: string } | undefined
  /** What was wanted, where the first sentence's game stays below it. */
  readonly missesTarget?: string | undefined
  /** The fewest of its parts on the shelf; absent where nothing comes from there. */
  readonly stock?: number | undefined
}

/** Throws RangeError on an option that the answer does not have. */
export function saidOption(answer: Answer, pickId: string): OptionSaid {
  const pick = pickOf(answer, pickId)
  if (pick === undefined) throw new RangeError(`the answer has no option "${pickId}"`)
  // The letter speaks first: its context explains trade words where they are first read.
  // Of the roads nothing is told here, so their grades are not explained either.
  const letter = { ...letterOf(answer, { pickId }), known: knownOf(contextOf(answer, pick), []) }
  const ctx = contextOf(answer, pick)
  const gain = headGain(pick.gains, answer.inputs.question)
  const items = pick.shelfItemIds.flatMap((id) => ctx.shelfItem(id) ?? [])
  return {
    ctx,
    letter,
    parts: optionWords(ctx, pick),
    isBelowFloor: pick.useful !== undefined && !pick.worthTheVisit,
    price: ctx.money(pick.price.netMinor),
    priceWhat: priceWhatOf(ctx, pick),
    ...(gain !== undefined &&
      gain.after.averageFps < answer.inputs.question.targetFps && {
        missesTarget: ctx.figures.fps(answer.inputs.question.targetFps),
      }),
    ...(gain !== undefined && {
      rise: { title: oneLine(ctx.titleName(gain.titleId)), ...ratesOf(ctx, gain) },
    }),
    ...(items.length > 0 && { stock: Math.max(0, Math.min(...items.map(({ quantity }) => quantity))) }),
  }
}

/** What it is, in each game, what it costs, what cannot go in, and how that is known. */
export function optionBlocks({ ctx, letter }: OptionSaid, priceNotes: readonly string[]): readonly Block[] {
  const { pick, games, price, board, handsIn, known } = letter
  const asksToMeasure = board?.items.some(({ verdict }) => verdict === "can't tell") === true
  return [
    ...(pick === undefined ? [] : [{ is: 'pick', pick } as const]),
    ...(games === undefined ? [] : [{ is: 'games', games } as const]),
    ...(price === undefined
      ? []
      : [
          {
            is: 'price',
            head: price.head,
            rows: price.rows,
            notes: [...price.notes, ...priceNotes],
          } as const,
        ]),
    ...(board === undefined
      ? []
      : [{ is: 'items', head: board.head, items: board.items, more: board.more } as const]),
    ...(handsIn === undefined || !asksToMeasure
      ? []
      : [
          {
            is: 'orders',
            head: ctx.words.handsIn.headMeasure,
            lead: [ctx.words.handsIn.needNot],
            rows: handsIn.items,
          } as const,
        ]),
    ...(known === undefined ? [] : [{ is: 'known', ...known } as const]),
  ]
}
