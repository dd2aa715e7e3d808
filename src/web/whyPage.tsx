import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import type { EndMark, TitleGain, WantedRun } from '../core/gain/gain.ts'
import { type Coverage, HALF_WIDTH_SD, intervalOf } from '../core/gain/intervals.ts'
import { reaches } from '../core/gain/targets.ts'
import type { EndWhy, Why } from '../core/gain/whyTypes.ts'
import type { Part } from '../core/part.ts'
import type { Result } from '../problem.ts'
import type { WhyView } from '../uses/gain/whyNumber.ts'
import { WHY_EN } from '../words/en/why.ts'
import type { Figures } from '../words/figures.ts'
import { optionWords, partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { FitFailed } from './fitFailed.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { WhiskerBars } from './pictures/whiskers.tsx'
import { settingName, titleName } from './settingText.ts'
import { PATIENCE_MS, stopped, waitingPage } from './waiting.tsx'

type Numbered = Exclude<TitleGain, { grade: 'no number' }>

/** What every piece of the page needs; made once a page. */
type Told = { readonly view: WhyView; readonly figures: Figures }

const W = WHY_EN

const RunLink = ({ id }: { id: string }) => <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a>

const RunLinks = ({ ids }: { ids: readonly string[] }) => (
  <>
    {ids.map((id, i) => (
      <>
        {i > 0 && ', '}
        <RunLink id={id} />
      </>
    ))}
  </>
)

const COVERAGES: readonly Coverage[] = [50, 80, 90]

const Intervals = ({ gain, figures }: { gain: Numbered; figures: Figures }) => {
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
    </section>
  )
}

/** Both ends, today's first. */
const endsOf = ({ before, after }: Why): readonly (readonly [string, EndWhy])[] => [
  [W.today, before],
  [W.after, after],
]

/** Further from its runs than the formula is, or beyond them. */
const isOutside = ({ raw, modelFps, blendFps }: EndWhy): boolean => {
  const all = raw === undefined ? [modelFps] : [modelFps, raw.averageFps]
  const tenth = 0.05
  return blendFps < Math.min(...all) - tenth || blendFps > Math.max(...all) + tenth
}

const Ends = ({ why, figures }: { why: Why; figures: Figures }) => {
  const w = W.ends
  return (
    <section>
      <h3>{w.head}</h3>
      <table class="list">
        <thead>
          <tr>
            <th scope="col">{w.end}</th>
            <th scope="col" class="right">
              {w.own}
            </th>
            <th scope="col" class="right">
              {w.model}
            </th>
            <th scope="col" class="right">
              {w.share}
            </th>
            <th scope="col" class="right">
              {w.blend}
            </th>
          </tr>
        </thead>
        <tbody>
          {endsOf(why).map(([name, end]) => (
            <tr>
              <td>{name}</td>
              <td class="right num" data-label={w.own}>
                {end.raw === undefined ? w.noRun : `${figures.decimal(end.raw.averageFps)} FPS`}
              </td>
              <td class="right num" data-label={w.model}>
                {figures.decimal(end.modelFps)} FPS
              </td>
              <td class="right num" data-label={w.share}>
                {figures.named('sharePct', 100 * end.ownShare)}
              </td>
              <td class="right num" data-label={w.blend}>
                <b>{figures.decimal(end.blendFps)} FPS</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {endsOf(why).some(([, end]) => isOutside(end)) && <p class="soft">{w.shared}</p>}
    </section>
  )
}

const Runs = ({ why, figures }: { why: Why; figures: Figures }) => {
  const w = W.runs
  const rows = endsOf(why).flatMap(([name, { runs }]) => runs.map((run) => [name, run] as const))
  return (
    <section>
      <h3>{w.head}</h3>
      {rows.length === 0 ? (
        <p>{w.none}</p>
      ) : (
        <table class="list">
          <thead>
            <tr>
              <th scope="col">{w.run}</th>
              <th scope="col">{w.end}</th>
              <th scope="col">{w.on}</th>
              <th scope="col" class="right">
                {w.fps}
              </th>
              <th scope="col" class="right">
                {w.off}
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, run]) => (
              <tr>
                <td>
                  <RunLink id={run.runId} />
                </td>
                <td data-label={w.end}>{name}</td>
                <td data-label={w.on}>{figures.shortDate(run.at)}</td>
                <td class="right num" data-label={w.fps}>
                  {figures.decimal(run.averageFps)} FPS
                </td>
                <td class="right num" data-label={w.off}>
                  {signed(100 * Math.expm1(run.off), figures)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

/** Percent to one decimal with its sign. */
const signed = (pct: number, figures: Figures): string =>
  `${pct > 0 ? '+' : ''}${figures.decimal(Math.round(pct * 10) / 10)}%`

/** Below this weight a run looks spoilt to the model. */
const DOUBTED = 0.3

const Pulls = ({ why, told }: { why: Why; told: Told }) => {
  const { figures, view } = told
  const w = W.pulls
  const { titles, settings } = view.answer.inputs
  const pulls = why.pulls.filter(({ pull }) => Math.abs(pull) >= TOLD_FROM)
  return (
    <section>
      <h3>{w.head}</h3>
      {pulls.length === 0 ? (
        <p class="soft">{why.pulls.length === 0 ? w.none : w.little}</p>
      ) : (
        <>
          <p class="soft">{w.says}</p>
          <table class="list">
            <thead>
              <tr>
                <th scope="col">{w.runs}</th>
                <th scope="col">{w.title}</th>
                <th scope="col">{w.parts}</th>
                <th scope="col" class="right">
                  {w.fps}
                </th>
                <th scope="col" class="right">
                  {w.moves}
                </th>
              </tr>
            </thead>
            <tbody>
              {pulls.map((pull) => (
                <tr>
                  <td>
                    <RunLinks ids={pull.runIds} />
                    {pull.believed < DOUBTED && <small class="block">{w.doubted}</small>}
                  </td>
                  <td data-label={w.title}>
                    {titleName(titles, pull.titleId)}
                    <small class="block">{settingName(settings, pull.settingId)}</small>
                  </td>
                  <td data-label={w.parts}>
                    {named(view.parts, pull.processorId)}
                    <small class="block">{named(view.parts, pull.cardId)}</small>
                  </td>
                  <td class="right num" data-label={w.fps}>
                    {figures.decimal(pull.averageFps)} FPS
                  </td>
                  <td class="right num" data-label={w.moves}>
                    {signed(pull.pull, figures)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </section>
  )
}

const named = (parts: readonly Part[], id: string): string => parts.find((p) => p.id === id)?.name ?? id

/** Runs that move the gain by less than a twentieth of a percent are not told. */
const TOLD_FROM = 0.05

/** A probability as it is read: nobody knows it to be none or all. */
const shareText = (p: number, figures: Figures): string => {
  if (p < 0.01) return fill(W.under, { share: figures.named('sharePct', 1) })
  if (p > 0.99) return fill(W.over, { share: figures.named('sharePct', 99) })
  return figures.named('sharePct', 100 * p)
}

const Sides = ({ gain, why, figures }: { gain: Numbered; why: Why; figures: Figures }) => {
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

const Target = ({ gain, told }: { gain: Numbered; told: Told }) => {
  const { figures, view } = told
  const { targetFps } = view.answer.inputs.question
  const reach = reaches(gain, targetFps)
  if (reach === undefined) return null
  const share = (p: number) => shareText(p, figures)
  const w = W.target
  return (
    <section>
      <h3>{fill(w.head, { target: figures.fps(targetFps) })}</h3>
      <p>
        {fill(w.says, { before: share(reach.before), after: share(reach.after) })} {w.rule}
      </p>
    </section>
  )
}

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
  const { titles, settings } = view.answer.inputs
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
            })}
          </li>
        ))}
      </ul>
      <p>
        <a href="/runs/new">{w.note}</a>
      </p>
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

const Low = ({ gain, figures }: { gain: Numbered; figures: Figures }) => {
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

const TitleWhole = ({ gain, why, told }: { gain: TitleGain; why: Why | undefined; told: Told }) => {
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
      <Intervals gain={gain} figures={figures} />
      <Low gain={gain} figures={figures} />
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

const WhyBody = ({ told, back }: { told: Told; back: string }) => {
  const { answer, option, whys } = told.view
  const { machine, parts } = answer.inputs
  return (
    <>
      <p>
        <a href={back}>{W.back}</a>
      </p>
      <h1>{W.head}</h1>
      <p>
        <b>{fill(W.of, { option: optionWords(option, parts), tag: machine.tag })}</b>
      </p>
      <FitFailed inputs={answer.inputs} />
      {option.gains.map((gain, i) => (
        <TitleWhole gain={gain} why={whys[i]} told={told} />
      ))}
      {answer.inputs.gain !== undefined && <p class="soft">{W.method}</p>}
    </>
  )
}

export function whyRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = (c: Context, found: Result<WhyView>, back: string) => {
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer } = found.value
    const { shop, machine } = answer.inputs
    const title = `${W.head} ${machine.tag}`
    return page(
      c,
      { title, place: 'Questions', demo: options.demo, shopName: shop.name },
      <WhyBody told={{ view: found.value, figures: figuresOf(shop) }} back={back} />,
    )
  }
  app.get('/questions/:id/why', async (c) => {
    const id = param(c, 'id')
    const fitting = await uses.fitUnderWay(PATIENCE_MS)
    if (fitting !== undefined) return waitingPage(c, web, fitting)
    return show(c, await uses.whyOfQuestion(id, c.req.query('option')), pathTo('questions', id))
  })
  app.get('/answers/:id/why', async (c) => {
    const id = param(c, 'id')
    return show(c, await uses.whyOfAnswer(id, c.req.query('option')), pathTo('answers', id))
  })
}
