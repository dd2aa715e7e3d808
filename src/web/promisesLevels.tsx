import type { Level } from '../core/gain/reliability/reliability.ts'
import { MEASURE_EN } from '../words/en/measure.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'

const W = MEASURE_EN.promises

export const percent = (share: number, figures: Figures): string => figures.named('sharePct', 100 * share)

/** How often intervals held, by what they state. */
export const LevelTable = (props: {
  levels: readonly Level[]
  n: number
  figures: Figures
  heads: { readonly stated: string; readonly kept: string; readonly honest: string }
}) => {
  const { levels, n, figures, heads } = props
  return (
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{heads.stated}</th>
          <th scope="col" class="right">
            {heads.kept}
          </th>
          <th scope="col" class="right">
            {heads.honest}
          </th>
        </tr>
      </thead>
      <tbody>
        {levels.map(({ coverage, kept, share, honest }) => (
          <tr>
            <td class="num">{percent(coverage / 100, figures)}</td>
            <td class="right num" data-label={heads.kept}>
              {n === 0 ? '–' : percent(share, figures)}
              <small class="block">
                {fill(W.table.of, { kept: figures.number(kept), n: figures.number(n) })}
              </small>
            </td>
            <td class="right num" data-label={heads.honest}>
              {fill(W.table.range, {
                low: percent(honest.low, figures),
                high: percent(honest.high, figures),
              })}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
