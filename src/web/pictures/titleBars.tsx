import type { Answer } from '../../core/answer.ts'
import type { TitleGain } from '../../core/gain/gain.ts'
import { isToRunAgain } from '../../core/gain/useful.ts'
import { displayOf, type Question } from '../../core/question.ts'
import { type Figures, outwards } from '../../words/figures.ts'
import { titleName } from '../settingText.ts'
import { percentOf } from './scale.ts'

const BAR_HEIGHT = 36

type Known = Exclude<TitleGain, { grade: 'no number' }>

type Lines = { targetFps: number; displayHz: number | undefined; at: (fps: number) => string }

const Rulers = ({ targetFps, displayHz, at }: Lines) => (
  <>
    <line class="wanted" x1={at(targetFps)} x2={at(targetFps)} y1="0" y2="100%" />
    {displayHz !== undefined && (
      <line class="display" x1={at(displayHz)} x2={at(displayHz)} y1="0" y2="100%" />
    )}
  </>
)

const Bracket = ({ low, high, at }: { low: number; high: number; at: (fps: number) => string }) => (
  <g class="bracket">
    <line x1={at(low)} x2={at(high)} y1="23" y2="23" />
    <line x1={at(low)} x2={at(low)} y1="18" y2="28" />
    <line x1={at(high)} x2={at(high)} y1="18" y2="28" />
  </g>
)

const figureText = (gain: TitleGain, isToday: boolean, figures: Figures, targetFps: number): string => {
  const fps = (n: number) => figures.fpsAgainst(n, targetFps)
  if (gain.grade === 'no number') {
    return gain.before === undefined ? 'no number' : `${fps(gain.before.averageFps)} today, after: no number`
  }
  if (isToday) return `${fps(gain.before.averageFps)} today`
  return `${figures.numberAgainst(gain.before.averageFps, targetFps)} → ${fps(gain.after.averageFps)}`
}

const rangeText = (gain: TitleGain, isToday: boolean, figures: Figures): string | undefined => {
  if (gain.grade === 'no number' || isToday) return undefined
  const { low, high } = outwards(gain.afterFpsLow, gain.afterFpsHigh)
  const between = `between ${figures.number(low)} and ${figures.fps(high)}`
  return `${gain.grade}, ${between}${sayAgain(gain)}`
}

/** Nothing is claimed in such a title before it is run again. */
const sayAgain = (gain: Known): string => {
  if (gain.disagrees) return '; runs of one end disagree: run it again'
  return isToRunAgain(gain) ? '; a run of it does not fit the others: run it again' : ''
}

/** A title with neither end known has nothing to draw; its words say so. */
const isDrawn = (gain: TitleGain): boolean => gain.grade !== 'no number' || gain.before !== undefined

const TitleBar = (props: {
  gain: TitleGain
  name: string
  isToday: boolean
  lines: Lines
  figures: Figures
}) => {
  const { gain, name, isToday, lines, figures } = props
  const before = gain.before?.averageFps
  const range = rangeText(gain, isToday, figures)
  return (
    <li>
      <p class="bar-head">
        <b>{name}</b>
        <span class="num">{figureText(gain, isToday, figures, lines.targetFps)}</span>
      </p>
      {isDrawn(gain) && (
        <svg class="bars" height={BAR_HEIGHT} width="100%" aria-hidden="true">
          {before !== undefined && <rect class="before" x="0" y="4" height="9" width={lines.at(before)} />}
          {gain.grade !== 'no number' && !isToday && (
            <>
              <rect class="after" x="0" y="15" height="16" width={lines.at(gain.after.averageFps)} />
              <Bracket low={gain.afterFpsLow} high={gain.afterFpsHigh} at={lines.at} />
            </>
          )}
          <Rulers {...lines} />
        </svg>
      )}
      {range !== undefined && <small>{range}</small>}
    </li>
  )
}

const highest = (gain: TitleGain): number =>
  gain.grade === 'no number'
    ? (gain.before?.averageFps ?? 0)
    : Math.max(gain.before.averageFps, gain.afterFpsHigh)

const anchorAt = (share: number): 'start' | 'end' => (share > 0.5 ? 'end' : 'start')

/** The words under the two lines, each on its own row so that they never run into each other. */
const Labels = ({ lines, max, question }: { lines: Lines; max: number; question: Question }) => {
  const { targetFps, displayHz, at } = lines
  const texts = [
    { at: targetFps, text: `${targetFps} FPS wanted` },
    ...(displayHz === undefined ? [] : [{ at: displayHz, text: `display shows ${displayHz}` }]),
  ]
  return (
    <svg class="bars labels" height={texts.length * 18} width="100%" aria-hidden="true">
      {texts.map(({ at: fps, text }, i) => (
        <>
          <line
            class={fps === question.targetFps && i === 0 ? 'wanted' : 'display'}
            x1={at(fps)}
            x2={at(fps)}
            y1="0"
            y2={i * 18 + 6}
          />
          <text
            x={at(fps)}
            y={i * 18 + 15}
            dx={anchorAt(fps / max) === 'end' ? -6 : 6}
            text-anchor={anchorAt(fps / max)}
          >
            {text}
          </text>
        </>
      ))}
    </svg>
  )
}

/**
 * One row a title: thin bar now, thick bar after, the interval as a bracket; the wanted rate dotted, the display's
 * rate solid. Drawn in percent, so that its text keeps its size at any width. Every figure also stands as text.
 */
export const TitleBars = (props: {
  answer: Answer
  gains: readonly TitleGain[]
  isToday: boolean
  figures: Figures
}) => {
  const { answer, gains, isToday, figures } = props
  const { question, titles } = answer.inputs
  const displayHz = displayOf(question).refreshHz
  const max = Math.max(question.targetFps, displayHz ?? 0, ...gains.map(highest)) * 1.06
  const lines = { targetFps: question.targetFps, displayHz, at: percentOf(0, max) }
  return (
    <figure>
      <ul class="bar-list">
        {gains.map((gain) => (
          <TitleBar
            gain={gain}
            name={titleName(titles, gain.titleId)}
            isToday={isToday}
            lines={lines}
            figures={figures}
          />
        ))}
      </ul>
      {gains.some(isDrawn) && (
        <>
          <Labels lines={lines} max={max} question={question} />
          <figcaption>
            {isToday
              ? 'Bars: average frame rate today.'
              : 'Bars: average frame rate now (thin) and after (thick). The bracket holds four of five results.'}
          </figcaption>
        </>
      )}
    </figure>
  )
}
