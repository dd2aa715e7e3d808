import type { Child } from 'hono/jsx'
import type { EndMark, TitleGain, WantedRun } from '../../core/gain/gain.ts'
import type { EndWhy, Why } from '../../core/gain/whyTypes.ts'
import { WHY_EN } from '../../words/en/why.ts'
import { partWords } from '../../words/options.ts'
import { fill } from '../../words/say.ts'
import { WhiskerBars } from '../pictures/whiskers.tsx'
import { RunLink } from '../runLink.tsx'
import { settingName, titleName } from '../settingText.ts'
import { Ends, Pulls, Runs } from './evidence.tsx'
import { Intervals, Low, Sides, Target } from './sure.tsx'
import type { Numbered, Told } from './told.tsx'

const W = WHY_EN

/** Why an end counts for less, and what is odd about it. */
const Remarks = ({ gain }: { gain: Numbered }) => {
  const of = (name: string, marks: readonly EndMark[] | undefined) =>
    (marks ?? []).map((mark) => `${name}: ${W.marks[mark]}`)
  const said = [
    ...of(W.today, gain.marks?.before),
    ...of(W.after, gain.marks?.after),
    ...(gain.disagrees ? [W.disagrees] : []),
    ...(gain.runAgain && !gain.disagrees ? [W.runAgain] : []),
    ...(gain.atLeast?.before ? [`${W.today}: ${W.capped}`] : []),
    ...(gain.atLeast?.after ? [`${W.after}: ${W.capped}`] : []),
  ]
  return said.length === 0 ? null : (
    <ul class="remarks">
      {said.map((text) => (
        <li>{text}</li>
      ))}
    </ul>
  )
}

const Wanted = ({ runs, told }: { runs: readonly WantedRun[]; told: Told }) => {
  const { view, figures } = told
  const { titles, settings, machine } = view.answer.inputs
  if (runs.length === 0) return null
  const w = W.wanted
  return (
    <section>
      <h3>{w.head}</h3>
      <ul>
        {runs.map(({ titleId, settingId, fitted }) => (
          <li>
            {fill(w.run, {
              title: titleName(titles, titleId),
              setting: settingName(settings, settingId),
              processor: partWords(view.parts, fitted.processorId),
              card: partWords(view.parts, fitted.cardId),
              memory: fill(w.memory, {
                total: figures.named('totalGB', fitted.memory.totalGB),
                rate: figures.named('rateMts', fitted.memory.rateMts),
                channels: w.channels[fitted.memory.channels] ?? `${fitted.memory.channels}`,
              }),
            })}{' '}
            <RunLink run={{ titleId, settingId, fitted }} machine={machine} />
          </li>
        ))}
      </ul>
    </section>
  )
}

const Head = ({ gain, told, children }: { gain: TitleGain; told: Told; children?: Child }) => {
  const { titles, settings, question } = told.view.answer.inputs
  const wanted = question.wanted.find(({ titleId }) => titleId === gain.titleId)
  return (
    <>
      <h2>
        {titleName(titles, gain.titleId)}{' '}
        <small>{wanted === undefined ? '' : settingName(settings, wanted.settingId)}</small>{' '}
        <span class={`grade ${gain.grade === 'measured' ? 'sure' : ''}`}>{gain.grade}</span>
      </h2>
      {children}
      <p>{W.grades[gain.grade]}</p>
    </>
  )
}

const Figure = ({ gain, why, told }: { gain: Numbered; why: Why | undefined; told: Told }) => {
  const { figures, view } = told
  const { sdAfter = gain.sd } = gain
  const rates = (end: EndWhy | undefined) => (end?.runs ?? []).map(({ averageFps }) => averageFps)
  return (
    <figure>
      <p class="bar-head">
        <b class="num">
          {figures.decimal(gain.before.averageFps)} → {figures.decimal(gain.after.averageFps)} FPS
        </b>
        <span class="num">{figures.gainPct(100 * Math.expm1(gain.logGain))}</span>
      </p>
      <WhiskerBars
        of={{
          beforeFps: gain.before.averageFps,
          afterFps: gain.after.averageFps,
          sdAfter,
          runsBefore: rates(why?.before),
          runsAfter: rates(why?.after),
          targetFps: view.answer.inputs.question.targetFps,
        }}
      />
      <figcaption>{W.picture.caption}</figcaption>
    </figure>
  )
}

export const TitleWhole = ({
  gain,
  why,
  told,
  children,
}: {
  gain: TitleGain
  why: Why | undefined
  told: Told
  children?: Child
}) => {
  const { figures } = told
  if (gain.grade === 'no number') {
    return (
      <article class="card why-title">
        <Head gain={gain} told={told} />
        <p>{W.because[gain.because]}</p>
        <Wanted runs={gain.wanted} told={told} />
        {why !== undefined && <Runs why={why} figures={figures} />}
      </article>
    )
  }
  return (
    <article class="card why-title">
      <Head gain={gain} told={told}>
        <Figure gain={gain} why={why} told={told} />
      </Head>
      <Remarks gain={gain} />
      <Intervals gain={gain} widthFactor={told.view.answer.inputs.gain?.widthFactor ?? 1} figures={figures} />
      <Low gain={gain} figures={figures} />
      {children}
      {why !== undefined && (
        <>
          <Ends why={why} figures={figures} />
          <Runs why={why} figures={figures} />
          <Pulls why={why} told={told} />
          <Sides gain={gain} why={why} figures={figures} />
        </>
      )}
      <Target gain={gain} told={told} />
    </article>
  )
}
