import type { Level } from '../../core/gain/reliability/reliability.ts'
import { bandOf } from '../../core/gain/reliability/share.ts'
import { MEASURE_EN } from '../../words/en/measure.ts'

const W = MEASURE_EN.promises.picture
const SIDE = 320
const ROOM = 36
const TICKS = [0, 0.25, 0.5, 0.75, 1]
const STEPS = 40

const x = (share: number): number => ROOM + share * (SIDE - ROOM - 10)
const y = (share: number): number => SIDE - ROOM - share * (SIDE - ROOM - 10)
const point = (across: number, up: number): string => `${x(across).toFixed(1)},${y(up).toFixed(1)}`

/**
 * Stated share across, kept share up; the line of honest shops, and the band that chance gives so many promises. Every
 * figure stands in the table beside it.
 */
export const ReliabilityPlot = ({ levels, counts }: { levels: readonly Level[]; counts: number }) => {
  const across = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS)
  const low = across.map((p) => point(p, bandOf(p, counts).low))
  const high = across.map((p) => point(p, bandOf(p, counts).high)).reverse()
  return (
    <svg class="reliability" viewBox={`0 0 ${SIDE} ${SIDE}`} role="img" aria-label={W.label}>
      {counts > 0 && <polygon class="band" points={[...low, ...high].join(' ')} />}
      {TICKS.map((tick) => (
        <>
          <line class="grid" x1={x(tick)} x2={x(tick)} y1={y(0)} y2={y(1)} />
          <line class="grid" x1={x(0)} x2={x(1)} y1={y(tick)} y2={y(tick)} />
          <text x={x(tick)} y={SIDE - ROOM + 15} text-anchor="middle">
            {100 * tick}
          </text>
          <text x={ROOM - 6} y={y(tick) + 4} text-anchor="end">
            {100 * tick}
          </text>
        </>
      ))}
      <line class="wanted" x1={x(0)} y1={y(0)} x2={x(1)} y2={y(1)} />
      {levels.map(({ coverage, share }) => (
        <circle class="run-dot" cx={x(coverage / 100)} cy={y(share)} r="5.5" />
      ))}
      <text x={x(0.5)} y={SIDE - 4} text-anchor="middle">
        {W.stated}, %
      </text>
      <text x={12} y={y(0.5)} text-anchor="middle" transform={`rotate(-90 12 ${y(0.5)})`}>
        {W.kept}, %
      </text>
    </svg>
  )
}
