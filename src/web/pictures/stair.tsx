import type { Answer } from '../../core/answer.ts'
import type { Option, UsefulGain } from '../../core/ranking/option.ts'
import type { Figures } from '../../words/figures.ts'
import { gradeWords, optionWords } from '../../words/options.ts'
import { percentOf, ticksOf } from './scale.ts'

const PLOT_HEIGHT = 220

type Point = { option: Option; useful: UsefulGain; number: number; onStair: boolean }

const pointsOf = (answer: Answer): Point[] =>
  answer.ranking.ranked.flatMap((option, i) =>
    option.useful === undefined
      ? []
      : [
          {
            option,
            useful: option.useful,
            number: i + 1,
            onStair: answer.ranking.frontierIds.includes(option.id),
          },
        ],
  )

type Axes = { x: (minor: number) => string; y: (pct: number) => number; minX: number; maxX: number }

/** From nothing spent, up at each price where something better begins. */
const Stair = ({ points, axes }: { points: readonly Point[]; axes: Axes }) => {
  const { x, y } = axes
  return (
    <g class="stair">
      {points.map((point, i) => {
        const previous = points[i - 1]
        const from = previous === undefined ? 0 : previous.useful.pct
        const fromX = previous === undefined ? axes.minX : previous.option.price.netMinor
        const { netMinor } = point.option.price
        return (
          <>
            <line x1={x(fromX)} x2={x(netMinor)} y1={y(from)} y2={y(from)} />
            <line x1={x(netMinor)} x2={x(netMinor)} y1={y(from)} y2={y(point.useful.pct)} />
          </>
        )
      })}
      {points.slice(-1).map(({ option, useful }) => (
        <line x1={x(option.price.netMinor)} x2="100%" y1={y(useful.pct)} y2={y(useful.pct)} />
      ))}
    </g>
  )
}

const Dot = ({ point, axes }: { point: Point; axes: Axes }) => {
  const { useful, option, number, onStair } = point
  const cx = axes.x(option.price.netMinor)
  const cy = axes.y(useful.pct)
  if (!onStair) return <circle class="beaten" cx={cx} cy={cy} r="4" />
  return (
    <>
      <line class="bracket" x1={cx} x2={cx} y1={axes.y(useful.pctLow)} y2={axes.y(useful.pctHigh)} />
      <circle class={gradeWords(option) === 'measured' ? 'known' : 'guess'} cx={cx} cy={cy} r="6" />
      <text x={cx} y={cy} dx="-11" dy="-9" text-anchor="end" class="strong">
        {number}
      </text>
    </>
  )
}

const Grid = ({
  axes,
  pct,
  minor,
  figures,
}: {
  axes: Axes
  pct: number[]
  minor: number[]
  figures: Figures
}) => (
  <>
    {pct.map((value) => (
      <>
        <line class={value === 0 ? 'axis' : 'rule'} x1="0" x2="100%" y1={axes.y(value)} y2={axes.y(value)} />
        <text x="0" dx="-8" y={axes.y(value) + 4} text-anchor="end">
          {figures.gainPct(value)}
        </text>
      </>
    ))}
    <line class="axis" x1="0" x2="0" y1="0" y2={PLOT_HEIGHT} />
    {minor.map((value) => (
      <text x={axes.x(value)} y={PLOT_HEIGHT + 20} text-anchor="middle">
        {figures.money(value)}
      </text>
    ))}
  </>
)

/**
 * Cost against gain: the stair joins the best at each price. Numbers are the rows of the option table, so that no
 * name has to fit into the picture. Nothing is drawn when no option has a number.
 */
export const CostStair = ({ answer, figures }: { answer: Answer; figures: Figures }) => {
  const points = pointsOf(answer)
  if (points.length === 0) return null
  const { budgetMinor } = answer.inputs.question
  const unit = 10 ** figures.minorDigits
  const prices = [0, budgetMinor ?? 0, ...points.map((p) => p.option.price.netMinor)]
  const gains = [
    0,
    ...points.flatMap((p) => [p.useful.pct, ...(p.onStair ? [p.useful.pctLow, p.useful.pctHigh] : [])]),
  ]
  const maxX = Math.max(...prices, unit) * 1.08
  const minX = Math.min(...prices)
  const minY = Math.min(...gains)
  const maxY = Math.max(...gains, 1) * 1.08
  const toShare = (pct: number) => (pct - minY) / (maxY - minY)
  const axes: Axes = { x: percentOf(minX, maxX), y: (pct) => (1 - toShare(pct)) * PLOT_HEIGHT, minX, maxX }
  const stair = answer.ranking.frontierIds.flatMap((id) => points.find((p) => p.option.id === id) ?? [])
  const ticks = {
    pct: ticksOf(minY, maxY, 5),
    minor: ticksOf(minX / unit, maxX / unit, 4).map((v) => v * unit),
  }
  return (
    <figure>
      <svg
        class="plot"
        height={PLOT_HEIGHT + 28}
        role="img"
        aria-label="Options by net price and useful gain; the list below names each step of the line"
      >
        <Grid axes={axes} {...ticks} figures={figures} />
        {budgetMinor !== undefined && (
          <>
            <line class="wanted" x1={axes.x(budgetMinor)} x2={axes.x(budgetMinor)} y1="0" y2={PLOT_HEIGHT} />
            <text
              x={axes.x(budgetMinor)}
              y={-6}
              dx={(budgetMinor - minX) / (maxX - minX) > 0.5 ? -6 : 6}
              text-anchor={(budgetMinor - minX) / (maxX - minX) > 0.5 ? 'end' : 'start'}
            >
              {`budget ${figures.money(budgetMinor)}`}
            </text>
          </>
        )}
        <Stair points={stair} axes={axes} />
        {points
          .toSorted((a, b) => Number(a.onStair) - Number(b.onStair))
          .map((point) => (
            <Dot point={point} axes={axes} />
          ))}
      </svg>
      <ol class="steps">
        {stair.map(({ option, useful, number }) => (
          <li>
            <b class="num">{number}</b>
            <span>{optionWords(option, answer.inputs.parts)}</span>
            <span class="num">
              {figures.gainPct(useful.pct)} · {figures.money(option.price.netMinor)}
            </span>
          </li>
        ))}
      </ol>
      <figcaption>
        Filled: measured. Open: estimated or half measured. Grey: beaten by something cheaper or better.
        Numbers are rows of the table above.
      </figcaption>
    </figure>
  )
}
