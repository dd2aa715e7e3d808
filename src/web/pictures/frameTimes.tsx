import type { FrameFigures } from '../../core/frames/figures.ts'
import type { Stretch } from '../../core/frames/plot.ts'
import { FRAME_LOG_EN } from '../../words/en/frameLog.ts'
import type { Figures } from '../../words/figures.ts'
import { sayLonger } from '../../words/frameLog.ts'
import { percentOf, ticksOf } from './scale.ts'

const HEIGHT = 180
/** Where one frame is this many times longer than nearly all, the picture ends there and the frame is named. */
const TOP_TIMES = 6
const CLIPPED_NAMED = 1

type Scale = { readonly x: (s: number) => string; readonly y: (ms: number) => number }

const Grid = ({ ms, y, figures }: { ms: readonly number[]; y: (ms: number) => number; figures: Figures }) => (
  <>
    {ms.map((value) => (
      <>
        <line class={value === 0 ? 'axis' : 'rule'} x1="0" x2="100%" y1={y(value)} y2={y(value)} />
        <text x="0" dx="-6" y={y(value) + 4} text-anchor="end">
          {figures.decimal(value)}
        </text>
      </>
    ))}
  </>
)

/** From left to right along the longest frames and back along the shortest, in a box of 1000 x HEIGHT that is stretched. */
function bandPath(plot: readonly Stretch[], endS: number, y: (ms: number) => number): string {
  const at = (s: number) => ((s / endS) * 1000).toFixed(1)
  const above = plot.map(
    ({ fromS, toS, longestMs }) =>
      `${at(fromS)},${y(longestMs).toFixed(1)} ${at(toS)},${y(longestMs).toFixed(1)}`,
  )
  const below = plot
    .map(
      ({ fromS, toS, shortestMs }) =>
        `${at(toS)},${y(shortestMs).toFixed(1)} ${at(fromS)},${y(shortestMs).toFixed(1)}`,
    )
    .reverse()
  return `M${above.join(' L')} L${below.join(' L')} Z`
}

/** Stretches that reach above the picture: a mark at its upper edge each, and the longest of them with its time. */
const Clipped = ({
  plot,
  topMs,
  scale,
  figures,
}: {
  plot: readonly Stretch[]
  topMs: number
  scale: Scale
  figures: Figures
}) => {
  const clipped = plot.filter(({ longestMs }) => longestMs > topMs)
  const longest = clipped.toSorted((a, b) => b.longestMs - a.longestMs).slice(0, CLIPPED_NAMED)
  const endS = plot.at(-1)?.toS ?? 1
  return (
    <>
      {clipped.map(({ fromS }) => (
        <line class="clipped" x1={scale.x(fromS)} x2={scale.x(fromS)} y1="-7" y2="4" />
      ))}
      {longest.map(({ fromS, longestMs }) => (
        <text
          x={scale.x(fromS)}
          y="-10"
          text-anchor={fromS / endS > 0.7 ? 'end' : fromS / endS < 0.3 ? 'start' : 'middle'}
        >
          {`${figures.named('longestMs', longestMs)} at ${figures.seconds(fromS)}`}
        </text>
      ))}
    </>
  )
}

/** Each frame's time over the run. */
export const FramePlot = ({ found, figures }: { found: FrameFigures; figures: Figures }) => {
  const { plot, longestMs, percentilesMs } = found
  const endS = plot.at(-1)?.toS ?? 0
  if (endS === 0) return null
  const topMs = Math.min(longestMs, TOP_TIMES * percentilesMs.p95) * 1.04
  const y = (ms: number) => HEIGHT * (1 - Math.min(ms, topMs) / topMs)
  const x = percentOf(0, endS)
  return (
    <figure>
      <svg
        class="plot frames"
        height={HEIGHT + 30}
        role="img"
        aria-label={`Frame times in ms over ${figures.seconds(endS)}; the longest is ${figures.named('longestMs', longestMs)}`}
      >
        <Grid ms={ticksOf(0, topMs, 4)} y={y} figures={figures} />
        <svg
          width="100%"
          height={HEIGHT}
          viewBox={`0 0 1000 ${HEIGHT}`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <path class="band" d={bandPath(plot, endS, y)} vector-effect="non-scaling-stroke" />
        </svg>
        <Clipped plot={plot} topMs={topMs} scale={{ x, y }} figures={figures} />
        {ticksOf(0, endS, 4).map((s) => (
          <text x={x(s)} y={HEIGHT + 20} text-anchor={s === 0 ? 'start' : s > 0.95 * endS ? 'end' : 'middle'}>
            {figures.seconds(s)}
          </text>
        ))}
      </svg>
      <figcaption>{FRAME_LOG_EN.plot}</figcaption>
    </figure>
  )
}

const BARS_HEIGHT = 130

/** How many frames took how long. */
export const FrameHistogram = ({ found, figures }: { found: FrameFigures; figures: Figures }) => {
  const { bars, longer } = found.histogram
  const [first] = bars
  const last = bars.at(-1)
  if (first === undefined || last === undefined) return null
  const most = Math.max(...bars.map(({ frames }) => frames))
  const x = percentOf(first.fromMs, last.toMs)
  const width = 100 / bars.length
  return (
    <figure>
      <svg
        class="plot frames"
        height={BARS_HEIGHT + 30}
        role="img"
        aria-label={`Most frames took between ${figures.decimal(first.fromMs)} and ${figures.named('toMs', last.toMs)}`}
      >
        <line class="axis" x1="0" x2="100%" y1={BARS_HEIGHT} y2={BARS_HEIGHT} />
        <text x="0" dx="-6" y="10" text-anchor="end">
          {figures.count(most)}
        </text>
        {bars.map(({ frames }, i) => {
          const height = frames === 0 ? 0 : Math.max((frames / most) * BARS_HEIGHT, 1)
          return (
            <rect
              class="bar"
              x={`${(i * width).toFixed(2)}%`}
              width={`${(width * 0.88).toFixed(2)}%`}
              y={BARS_HEIGHT - height}
              height={height}
            />
          )
        })}
        {ticksOf(first.fromMs, last.toMs, 5).map((ms) => (
          <text x={x(ms)} y={BARS_HEIGHT + 20} text-anchor={ms === first.fromMs ? 'start' : 'middle'}>
            {figures.named('Ms', ms)}
          </text>
        ))}
      </svg>
      <figcaption>
        {FRAME_LOG_EN.histogram} {sayLonger(longer, figures)}
      </figcaption>
    </figure>
  )
}
