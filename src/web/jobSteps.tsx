import type { Step } from '../core/job/checklist.ts'
import { type JobStepLine, TICKED_BY_HAND } from '../core/job/job.ts'
import { openByHand } from '../uses/jobs/finishFitting.ts'
import { sayCaution } from '../words/cautions.ts'
import { sayChecklistStep } from '../words/job.ts'
import { Field, FieldProblems, idOf, textOf } from './form.tsx'
import { pathTo } from './frame.ts'
import { Act } from './jobActs.tsx'
import type { JobShown } from './jobShown.ts'

/** Where the page takes what ticks a step that is not ticked by hand. */
const PLACES: { readonly [W in Step['what']]?: readonly [anchor: string, words: string] } = {
  measure: ['run', 'note the run'],
  'test what came out': ['out', 'say what became of it'],
  settle: ['settle', 'name the price'],
  'tell the owner': ['tell', 'see the text'],
}

const Tick = ({ step, shown }: { step: JobStepLine; shown: JobShown }) => {
  const { job } = shown.view
  const isDone = step.doneAt !== undefined
  const byHand = TICKED_BY_HAND.has(step.what) && job.state === 'on the bench' && job.fittedAt === undefined
  if (!byHand)
    return (
      <span class={isDone ? 'box shut ticked' : 'box shut'}>
        <span class="unseen">{isDone ? 'done' : job.state === 'called off' ? 'not done' : 'open'}</span>
      </span>
    )
  return (
    <form method="post" action={`${shown.path}/steps/${step.position}`}>
      <button class="tick" type="submit" name="do" value={isDone ? 'untick' : 'tick'}>
        <span class={isDone ? 'box pen ticked' : 'box pen'} aria-hidden="true"></span>
        <span class="unseen">
          {isDone ? 'Take the tick back: ' : 'Tick: '}
          {sayChecklistStep(step, shown.names)}
        </span>
      </button>
    </form>
  )
}

/** The way to where an open step is recorded, once the parts are in. */
const Place = ({ step, shown }: { step: JobStepLine; shown: JobShown }) => {
  const place = PLACES[step.what]
  if (place === undefined || step.doneAt !== undefined || shown.view.job.fittedAt === undefined) return null
  return (
    <>
      {' '}
      <a href={`#${place[0]}`}>
        {place[1]}
        <span class="unseen">: {sayChecklistStep(step, shown.names)}</span>
      </a>
    </>
  )
}

/** One step with its cautions beside it. */
const StepLine = ({ step, shown }: { step: JobStepLine; shown: JobShown }) => (
  <li id={`step-${step.position}`} class={step.doneAt === undefined ? undefined : 'past'}>
    <Tick step={step} shown={shown} />
    <div>
      <b>{sayChecklistStep(step, shown.names)}</b>
      <Place step={step} shown={shown} />
      {step.doneAt !== undefined && <small> done {shown.figures.shortDate(step.doneAt)}</small>}
      {step.cautions.length > 0 && (
        <ul class="cautions">
          {step.cautions.map((id) => (
            <li>{sayCaution(id).short}</li>
          ))}
        </ul>
      )}
    </div>
  </li>
)

/** Whether the board's firmware is another one after this job. */
const bringsFirmware = ({ view }: JobShown): boolean => view.option.change.work.includes('firmware update')

const Steps = ({ steps, shown }: { steps: readonly JobStepLine[]; shown: JobShown }) => (
  <ol class="checklist">
    {steps.map((step) => (
      <StepLine step={step} shown={shown} />
    ))}
  </ol>
)

/** Of every step without a tick: is it done, or not and why. Nobody's silence counts as a yes. */
const Unticked = ({ shown }: { shown: JobShown }) => {
  const open = openByHand(shown.view.steps)
  const { typed, problems, names } = shown
  return open.length === 0 ? null : (
    <fieldset>
      <legend>Without a tick</legend>
      {open.map((step) => {
        const name = `step.${step.position}`
        return (
          <div class="field" id={idOf(name)}>
            <b>{sayChecklistStep(step, names)}</b>
            <p class="line">
              {(['done', 'not done'] as const).map((value) => (
                <label class="check">
                  <input type="radio" name={name} value={value} checked={textOf(typed, name) === value} />{' '}
                  {value}
                  <span class="unseen">: {sayChecklistStep(step, names)}</span>
                </label>
              ))}
            </p>
            <FieldProblems name={name} problems={problems} />
            {step.what !== 'fit' && step.what !== 'take out' && (
              <Field name={`why.${step.position}`} label="If not, why" typed={typed} problems={problems} />
            )}
          </div>
        )
      })}
    </fieldset>
  )
}

/** The checklist in the order of the bench, and the one button that says it is all in. */
export const Checklist = ({ shown }: { shown: JobShown }) => {
  const { job, steps } = shown.view
  const isIn = job.fittedAt !== undefined
  const isOpen = job.state === 'on the bench' && !isIn
  const done = steps.filter(({ doneAt }) => doneAt !== undefined)
  return (
    <section id="steps">
      <h2>Checklist</h2>
      {isIn ? (
        <>
          <p class="soft">
            In since {shown.figures.date(job.fittedAt ?? '')}.{' '}
            <a href={pathTo('machines', job.machineTag)}>The page of {job.machineTag}</a> shows the machine as
            it is now.
          </p>
          <Steps steps={steps.filter(({ doneAt }) => doneAt === undefined)} shown={shown} />
          <details>
            <summary>
              {done.length} of {steps.length} steps are done
            </summary>
            <Steps steps={done} shown={shown} />
          </details>
        </>
      ) : isOpen ? (
        <Steps steps={steps} shown={shown} />
      ) : job.state === 'called off' ? (
        <details>
          <summary>
            {done.length === 0 ? 'None' : done.length} of its {steps.length} steps{' '}
            {done.length > 1 ? 'were' : 'was'} done
          </summary>
          <Steps steps={steps} shown={shown} />
        </details>
      ) : (
        <details>
          <summary>{steps.length} steps, to be ticked once it is started</summary>
          <Steps steps={steps} shown={shown} />
        </details>
      )}
      {isOpen && (
        <Act shown={shown} step="fitted" to="fitted">
          <Unticked shown={shown} />
          {bringsFirmware(shown) && (
            <Field
              name="firmware"
              label="Firmware now"
              hint="As the first screen shows it. Empty: not known any more, because the old version is gone."
              typed={shown.typed}
              problems={shown.problems}
              narrow
            />
          )}
        </Act>
      )}
    </section>
  )
}
