import type { Point } from '../../core/reach/curve.ts'
import type { Reach } from '../../core/reach/reach.ts'
import { REACH_EN } from '../../words/en/reach.ts'
import type { Figures } from '../../words/figures.ts'
import { letterAt } from '../../words/reach.ts'
import { fill } from '../../words/say.ts'
import { percentOf, ticksOf } from './scale.ts'

const HEIGHT = 260
/** Letters at the right end that would stand on each other are pushed so far apart. */
const LETTER_PX = 16

const W = REACH_EN.result

type Way = { readonly letter: string; readonly at: number; readonly points: readonly Point[] }
type Axes = { readonly x: (minor: number) => string; readonly y: (fps: number) => number }
type WayProps = { way: Way; axes: Axes; upToMinor: number }

/** Of each step where it begins and where the next one does. */
const spansOf = ({ points }: Way, upToMinor: number) =>
  points.map((point, i) => ({ point, toMinor: points[i + 1]?.spendMinor ?? upToMinor }))

const Shade = ({ way, axes: { x, y }, upToMinor }: WayProps) => (
  <g class="shade">
    {spansOf(way, upToMinor).map(({ point, toMinor }) => (
      <rect
        x={x(point.spendMinor)}
        width={x(toMinor - point.spendMinor)}
        y={y(point.high)}
        height={Math.max(1, y(point.low) - y(point.high))}
      />
    ))}
  </g>
)

const Line = ({ way, axes: { x, y }, upToMinor }: WayProps) => (
  <g class={`way way-${way.at}`}>
    {spansOf(way, upToMinor).map(({ point, toMinor }, i) => {
      const before = way.points[i - 1]
      return (
        <>
          {before !== undefined && (
            <line x1={x(point.spendMinor)} x2={x(point.spendMinor)} y1={y(before.fps)} y2={y(point.fps)} />
          )}
          <line x1={x(point.spendMinor)} x2={x(toMinor)} y1={y(point.fps)} y2={y(point.fps)} />
        </>
      )
    })}
    {way.points.map((point) => (
      <circle class={point.isBound ? 'guess' : 'known'} cx={x(point.spendMinor)} cy={y(point.fps)} r="4" />
    ))}
  </g>
)

/** Where each letter stands: at the end of its line, from the top down, none on another. */
export function lettersAt(ends: readonly number[]): number[] {
  const places = ends.map((y, i) => ({ i, y })).sort((a, b) => a.y - b.y)
  let last = Number.NEGATIVE_INFINITY
  const at: number[] = []
  for (const { i, y } of places) {
    last = Math.max(y, last + LETTER_PX)
    at[i] = last
  }
  return at
}

/**
 * Level against further spend, one stepped line for each platform: told apart by dashes and by the letter at its end, so
 * that it can be read without colours. Nothing is drawn where no platform has a level.
 */
export const ReachSteps = ({ reach, figures }: { reach: Reach; figures: Figures }) => {
  const { upToMinor, targetFps } = reach.ask
  const ways = reach.platforms.flatMap(({ now }, at): Way[] =>
    now.points.length === 0 ? [] : [{ letter: letterAt(at), at, points: now.points }],
  )
  if (ways.length === 0) return null
  const points = ways.flatMap((way) => way.points)
  const most = Math.max(targetFps, ...points.map(({ high }) => high)) * 1.05
  const unit = 10 ** figures.minorDigits
  const y = (fps: number) => (1 - fps / most) * HEIGHT
  const axes: Axes = { x: percentOf(0, upToMinor), y }
  const letters = lettersAt(ways.map((way) => y(way.points.at(-1)?.fps ?? 0)))
  return (
    <figure class="reach-picture">
      <svg class="plot" height={HEIGHT + 28} role="img" aria-label={W.pictureLabel}>
        {ticksOf(0, most, 5).map((fps) => (
          <>
            <line class={fps === 0 ? 'axis' : 'rule'} x1="0" x2="100%" y1={y(fps)} y2={y(fps)} />
            <text x="0" dx="-8" y={y(fps) + 4} text-anchor="end">
              {figures.number(fps)}
            </text>
          </>
        ))}
        <line class="axis" x1="0" x2="0" y1="0" y2={HEIGHT} />
        {ticksOf(0, upToMinor / unit, 4).map((major) => (
          <text x={axes.x(major * unit)} y={HEIGHT + 20} text-anchor="middle">
            {figures.money(major * unit)}
          </text>
        ))}
        {ways.map((way) => (
          <Shade way={way} axes={axes} upToMinor={upToMinor} />
        ))}
        <line class="wanted" x1="0" x2="100%" y1={y(targetFps)} y2={y(targetFps)} />
        <text x="100%" y={y(targetFps) + 16} text-anchor="end">
          {fill(W.wanted, { target: figures.fps(targetFps) })}
        </text>
        {ways.map((way) => (
          <Line way={way} axes={axes} upToMinor={upToMinor} />
        ))}
        {ways.map((way, i) => (
          <text class="strong" x="100%" dx="6" y={(letters[i] ?? 0) + 4}>
            {way.letter}
          </text>
        ))}
      </svg>
      <ul class="way-names">
        {reach.platforms.map(({ name }, at) => (
          <li>
            <svg width="46" height="12" aria-hidden="true">
              <g class={`way way-${at}`}>
                <line x1="2" x2="44" y1="6" y2="6" />
              </g>
            </svg>{' '}
            <b>{letterAt(at)}</b> {name !== letterAt(at) && name}
          </li>
        ))}
      </ul>
      <figcaption>{W.pictureHow}</figcaption>
    </figure>
  )
}
