import type { Part } from '../core/part.ts'
import type { PartByPart } from '../core/ranking/partByPart.ts'
import { RANKING_EN } from './en/ranking.ts'
import type { Figures } from './figures.ts'
import { optionWords } from './options.ts'
import { fill, fillPieces, type Piece } from './say.ts'

/** Why the best bundle is not what the list of single parts adds up to: a sentence each. */
export function sayPartByPart(
  { together, best, alone }: PartByPart,
  parts: readonly Part[],
  figures: Figures,
): readonly (readonly Piece[])[] {
  const w = RANKING_EN.partByPart
  const pct = (option: typeof best) => figures.gainPct(option.useful?.pct ?? 0)
  const values = {
    list: optionWords(together, parts),
    listPct: pct(together),
    listPrice: figures.money(together.price.netMinor),
    best: optionWords(best, parts),
    bestPct: pct(best),
    bestPrice: figures.money(best.price.netMinor),
  }
  const singles = alone.map((option) => fill(w.part, { what: optionWords(option, parts), pct: pct(option) }))
  const kinds = new Set(best.change.add.map(({ kind }) => kind))
  const isOfBoth = kinds.has('processor') && kinds.has('card')
  return [
    fillPieces(w.list, values),
    fillPieces(w.best, values),
    ...(singles.length > 0 ? [fillPieces(w.alone, { parts: singles.join(', ') })] : []),
    fillPieces(isOfBoth ? w.why : w.sums, {}),
  ]
}
