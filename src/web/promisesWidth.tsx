import type { Hono } from 'hono'
import {
  type FactorProposal,
  LEAST_TO_FIT,
  type Level,
  type Reliability,
  WIDTH_RANGE,
} from '../core/gain/reliability/reliability.ts'
import { stepInForce, type WidthStep } from '../core/gain/reliability/widthSteps.ts'
import { number } from '../input/cells.ts'
import type { WidthView } from '../uses/measure/promises.ts'
import { MEASURE_EN } from '../words/en/measure.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { textOf, typedOf } from './form.tsx'
import { readingFor, type Web } from './frame.ts'
import { problemPage } from './problem.tsx'
import { LevelTable } from './promisesLevels.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = MEASURE_EN.promises
const w = W.factor

type Decides = { readonly figures: Figures; readonly mayDecide: boolean }

/** How often promises were kept with one width, and would have been with another, side by side. */
const OldAndNew = (props: {
  was: number
  factor: number
  before: readonly Level[]
  after: readonly Level[]
  n: number
  figures: Figures
}) => {
  const { was, factor, before, after, n, figures } = props
  const sides = [
    [was, before],
    [factor, after],
  ] as const
  return (
    <div class="beside">
      {sides.map(([times, levels]) => (
        <div>
          <h3>{times === 1 ? w.with.own : fill(w.with.other, { factor: figures.times(times) })}</h3>
          <LevelTable levels={levels} n={n} figures={figures} heads={W.table} />
        </div>
      ))}
    </div>
  )
}

/** Whether the model's own width came before. */
const orderOf = (was: number): 'first' | 'later' => (was === 1 ? 'first' : 'later')

const jobsText = (jobs: number, figures: Figures): string =>
  jobs === 1 ? w.jobs.one : fill(w.jobs.other, { n: figures.number(jobs) })

/** What holds now, what it stands on, and the way back. */
const InForce = ({ step, figures, mayDecide }: Decides & { step: WidthStep }) => {
  const { id, at, was, factor, evidence } = step
  return (
    <>
      <p>
        <b>
          {fill(w.inForce[orderOf(was)], {
            ...{ date: figures.date(at), factor: figures.times(factor), was: figures.times(was) },
          })}
        </b>{' '}
        {fill(w.basis, {
          promises: figures.number(evidence.promises),
          jobs: jobsText(evidence.jobs, figures),
          counts: figures.number(Math.round(evidence.counts)),
          seen: figures.times(evidence.seen),
        })}
      </p>
      <OldAndNew {...{ was, factor, figures, n: evidence.promises }} {...evidence} />
      {mayDecide ? (
        <form method="post" action="/promises/width/back" class="line">
          <input type="hidden" name="step" value={id} />
          <button class="button quiet" type="submit">
            {w.back}
          </button>
          <span class="soft">{fill(w.backTo[orderOf(was)], { was: figures.times(was) })}</span>
        </form>
      ) : (
        <p class="soft">{w.owner}</p>
      )}
    </>
  )
}

/** What the promises call for, with what speaks for it. */
const Proposed = (props: Decides & { proposal: FactorProposal; was: number }) => {
  const { proposal, was, figures, mayDecide } = props
  const { factor, seen, before, after } = proposal
  return (
    <>
      <p>
        <b>{fill(w.calls[orderOf(was)], { factor: figures.times(factor), was: figures.times(was) })}</b>{' '}
        {fill(w.says, { seen: figures.times(seen) })}
      </p>
      <OldAndNew
        {...{ was, factor, figures, n: before.promises }}
        before={before.levels}
        after={after.levels}
      />
      <p>
        {w.look} <span class="soft">{w.effect}</span>
      </p>
      {mayDecide ? (
        <form method="post" action="/promises/width" class="line">
          <input type="hidden" name="was" value={was} />
          <input type="hidden" name="factor" value={factor} />
          <button class="button" type="submit">
            {fill(w.take, { factor: figures.times(factor) })}
          </button>
        </form>
      ) : (
        <p class="soft">{w.owner}</p>
      )}
    </>
  )
}

const Earlier = ({ steps, figures }: { steps: readonly WidthStep[]; figures: Figures }) =>
  steps.length === 0 ? null : (
    <>
      <h3>{w.earlier}</h3>
      <ul>
        {steps.map(({ at, by, was, factor, evidence, takenBackAt }) => (
          <li>
            {fill(w.step, {
              ...{ date: figures.date(at), was: figures.times(was), factor: figures.times(factor) },
              by: by === undefined ? '' : fill(w.by, { name: by }),
              promises: figures.number(evidence.promises),
            })}
            {takenBackAt !== undefined && ` ${fill(w.takenBack, { date: figures.date(takenBackAt) })}`}
          </li>
        ))}
      </ul>
    </>
  )

/** How wide intervals are, and what kept and missed promises say of it. */
export const Width = (props: Decides & { all: Reliability; width: WidthView }) => {
  const { all, width, figures, mayDecide } = props
  const { inForce, proposal } = width
  const steps = width.steps.toReversed()
  const step = stepInForce(steps)
  return (
    <section class="card lesson" id="width">
      <h2>{w.head}</h2>
      {step === undefined ? <p>{w.asModel}</p> : <InForce {...{ step, figures, mayDecide }} />}
      {proposal === undefined ? (
        <p class="soft">
          {all.counts < LEAST_TO_FIT ? fill(w.tooFew, { least: figures.number(LEAST_TO_FIT) }) : w.fits}
        </p>
      ) : (
        <Proposed {...{ proposal, figures, mayDecide }} was={inForce} />
      )}
      <Earlier steps={width.steps.filter(({ id }) => id !== step?.id)} figures={figures} />
    </section>
  )
}

/** What the form was drawn with: it never holds what somebody typed. */
const times = number(WIDTH_RANGE.least, WIDTH_RANGE.most, 'times')

export function widthRoutes(app: Hono, web: Web): void {
  const { uses } = web
  app.post('/promises/width', async (c) => {
    const reader = fieldReader(typedOf(await readForm(c)), readingFor(await uses.shop()))
    // A form without its figures was looked at by nobody; nothing matches it.
    const { was = 0, factor = 0 } = { was: reader.read('was', times), factor: reader.read('factor', times) }
    const taken = await uses.takeWidth({ was, factor }, nameOf(who(c)))
    if (!taken.ok) return problemPage(c, web, taken.problems, 'Jobs')
    return c.redirect('/promises#width', 303)
  })
  app.post('/promises/width/back', async (c) => {
    const back = await uses.takeBackWidth(textOf(typedOf(await readForm(c)), 'step') ?? '')
    if (!back.ok) return problemPage(c, web, back.problems, 'Jobs')
    return c.redirect('/promises#width', 303)
  })
}
