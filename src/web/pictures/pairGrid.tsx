import { type Known, pairKey } from '../../core/gain/measuredMap.ts'
import type { MeasuredCell, MeasuredSide } from '../../uses/runs/viewMeasured.ts'
import { RUN_MAP_EN as W } from '../../words/en/runMap.ts'

type Pair = Pick<MeasuredCell, 'processorId' | 'cardId'>

export type GridProps = {
  processors: MeasuredSide['lines']
  cards: MeasuredSide['lines']
  cells: ReadonlyMap<string, MeasuredCell>
  /** What a cell says of a pair that was run. */
  numberOf: (cell: MeasuredCell) => number
  /** Where runs of a pair, or of one part, are listed. */
  toRuns: (of: Partial<Pair>) => string
  /** Where a run of a pair is noted that was never run. */
  toSheet: (pair: Pair) => string
  /** Pairs of which a run would help, by `pairKey`. */
  suggested: ReadonlySet<string>
}

const TWO_DIGITS = 99

/**
 * Processors across, cards down. A table, so that it is read as one and takes the width it gets; what is known of a pair
 * is told by frame and hatching, so that ink alone tells it.
 */
export const PairGrid = (props: GridProps) => {
  const { processors, cards, cells, numberOf, toRuns, toSheet, suggested } = props
  const Cell = ({ pair }: { pair: Pair }) => {
    const key = pairKey(pair)
    const cell = cells.get(key)
    const isNext = suggested.has(key)
    const known: Known = cell?.known ?? 'never'
    const kind = isNext ? `${known} next` : known
    if (cell === undefined)
      return (
        <td class={kind}>
          <a href={toSheet(pair)} aria-label={isNext ? W.suggestedSays : W.emptySays}>
            {isNext ? W.suggested : W.empty}
          </a>
        </td>
      )
    const n = numberOf(cell)
    return (
      <td class={kind}>
        <a href={toRuns(pair)}>{n > TWO_DIGITS ? W.manyMore : n}</a>
      </td>
    )
  }
  return (
    <table class="pairs">
      <caption class="unseen">{W.label}</caption>
      <thead>
        <tr>
          <th scope="col">{W.corner}</th>
          {processors.map(({ id, name }) => (
            <th scope="col">
              <a href={toRuns({ processorId: id })}>{name}</a>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {cards.map((card) => (
          <tr>
            <th scope="row">
              <a href={toRuns({ cardId: card.id })}>{card.name}</a>
            </th>
            {processors.map(({ id }) => (
              <Cell pair={{ processorId: id, cardId: card.id }} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** What frames and hatchings mean. */
export const GridKey = ({ hasNext }: { hasNext: boolean }) => (
  <ul class="pairs-key">
    {(['more', 'once', 'old', 'never'] as const).map((known) => (
      <li>
        <span class={`pairs-sample ${known}`} aria-hidden="true">
          {known === 'never' ? W.empty : '4'}
        </span>
        {W.key[known]}
      </li>
    ))}
    {hasNext && (
      <li>
        <span class="pairs-sample never next" aria-hidden="true">
          {W.suggested}
        </span>
        {W.next}
      </li>
    )}
  </ul>
)
