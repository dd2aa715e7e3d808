/** What a builder reads about the ranking as a whole. */
export const RANKING_EN = {
  /** Why not this one: another of the list costs no more and gives more. */
  beaten: 'Row {row} costs {less} less and brings {pct} on top.',
  beatenSame: 'Row {row} costs the same and brings {pct} on top.',
  partByPart: {
    head: 'Why not part by part',
    list: 'Down the list, the most gain for the money first, **{list}** would go in: {listPct} for {listPrice}.',
    best: '**{best}** gives {bestPct} for {bestPrice}.',
    alone: 'Alone: {parts}.',
    part: '{what} {pct}',
    sums: 'Gains of parts do not add up.',
    why: 'A frame waits for the slower of processor and card, so gains of parts do not add up: what one brings shows once the other keeps up.',
  },
} as const
