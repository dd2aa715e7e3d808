import { type Coverage, HALF_WIDTH_SD, intervalOf } from '../../core/gain/intervals.ts'
import { paceOf } from '../../core/gain/pace/pace.ts'
import { reaches } from '../../core/gain/targets.ts'
import { isPromised } from '../../core/gain/useful.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import { PACE_EN } from '../../words/en/pace.ts'
import { WHY_EN } from '../../words/en/why.ts'
import type { Figures } from '../../words/figures.ts'
import { sayPace } from '../../words/pace.ts'
import { fill } from '../../words/say.ts'
import { endsOf, type Numbered, type Told } from './told.tsx'

const W = WHY_EN

const COVERAGES: readonly Coverage[] = [50, 80, 90]

type IntervalsProps = { gain: Numbered; widthFactor: number; figures: Figures }

export const Intervals = ({ gain, widthFactor, figures }: IntervalsProps) => {
  const w = W.intervals
  const { sdAfter = gain.sd } = gain
  const fpsAt = (sds: number) => gain.after.averageFps * Math.exp(sds * sdAfter)
  return (
    <section>
      <h3>{w.head}</h3>
      <table class="list" aria-label={w.caption}>
        <thead>
          <tr>
            <th scope="col">{w.of}</th>
            <th scope="col" class="right">
              {w.fps}
            </th>
            <th scope="col" class="right">
              {w.gain}
            </th>
          </tr>
        </thead>
        <tbody>
          {COVERAGES.map((coverage) => {
            const { pctLow, pctHigh } = intervalOf(gain, coverage)
            const half = HALF_WIDTH_SD[coverage]
            return (
              <tr>
                <td>{w.rows[coverage]}</td>
                <td class="right num" data-label={w.fps}>
                  {fill(w.from, { low: figures.decimal(fpsAt(-half)), high: figures.decimal(fpsAt(half)) })}
                </td>
                <td class="right num" data-label={w.gain}>
                  {fill(w.from, { low: figures.gainPct(pctLow), high: figures.gainPct(pctHigh) })}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
      {widthFactor !== 1 && (
        <p class="soft">
          {fill(w.width, { factor: figures.times(widthFactor) })} <a href="/promises">{w.promises}</a>
        </p>
      )}
    </section>
  )
}

export const Low = ({ gain, figures }: { gain: Numbered; figures: Figures }) => {
  const { low1 } = gain
  if (low1 === undefined) return null
  const half = HALF_WIDTH_SD[80]
  const at = (sds: number) => low1.beforeFps * Math.exp(low1.logGain + sds * low1.sd)
  return (
    <p>
      {fill(W.low1, {
        before: figures.fps(low1.beforeFps),
        after: figures.fps(low1.afterFps),
        low: figures.number(at(-half)),
        high: figures.fps(at(half)),
      })}
    </p>
  )
}

/** A probability as it is read: nobody knows it to be none or all. */
const shareText = (p: number, figures: Figures): string => {
  if (p < 0.01) return fill(W.under, { share: figures.named('sharePct', 1) })
  if (p > 0.99) return fill(W.over, { share: figures.named('sharePct', 99) })
  return figures.named('sharePct', 100 * p)
}

export const Target = ({ gain, told }: { gain: Numbered; told: Told }) => {
  const { figures, view } = told
  const { targetFps } = view.answer.inputs.question
  const reach = reaches(gain, targetFps)
  if (reach === undefined && isPromised(gain)) return null
  const share = (p: number) => shareText(p, figures)
  const w = W.target
  return (
    <section>
      <h3>{fill(w.head, { target: figures.fps(targetFps) })}</h3>
      <p>
        {reach === undefined
          ? w.runAgain
          : `${fill(w.says, { before: share(reach.before), after: share(reach.after) })} ${w.rule}`}
      </p>
    </section>
  )
}

export const Sides = ({ gain, why, figures }: { gain: Numbered; why: Why; figures: Figures }) => {
  const w = W.sides
  const share = (p: number) => shareText(p, figures)
  return (
    <section>
      <h3>{w.head}</h3>
      <ul>
        {endsOf(why).map(([end, { processorMs, cardMs }]) => (
          <li>
            {fill(w.frame, { end, processor: figures.decimal(processorMs), card: figures.decimal(cardMs) })}
          </li>
        ))}
      </ul>
      <p>{w.both}</p>
      <ul>
        {endsOf(why).map(([end, side], i) => {
          const isCapped = (i === 0 ? gain.atLeast?.before : gain.atLeast?.after) === true
          const says = sayPace(paceOf(side, { isCapped }), figures).join(' ')
          return <li>{fill(PACE_EN.title, { title: end, says })}</li>
        })}
      </ul>
      {gain.processorLimits !== undefined && gain.cardLimits !== undefined && (
        <ul>
          <li>{fill(w.processor, { end: W.today, share: share(gain.processorLimits.before) })}</li>
          <li>{fill(w.processor, { end: W.after, share: share(gain.processorLimits.after) })}</li>
          <li>{fill(w.card, { end: W.after, share: share(gain.cardLimits.after) })}</li>
        </ul>
      )}
    </section>
  )
}
