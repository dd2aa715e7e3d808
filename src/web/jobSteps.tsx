import { type JobStepLine, TICKED_BY_HAND } from '../core/job/job.ts'
import { sayCaution } from '../words/cautions.ts'
import { sayChecklistStep } from '../words/job.ts'
import { Field } from './form.tsx'
import { pathTo } from './frame.ts'
import { Act } from './jobActs.tsx'
import type { JobShown } from './jobShown.ts'

const Tick = ({ step, shown }: { step: JobStepLine; shown: JobShown }) => {
  const { job } = shown.view
  const isDone = step.doneAt !== undefined
  const byHand = TICKED_BY_HAND.has(step.what) && job.state === 'on the bench' && job.fittedAt === undefined
  if (!byHand)
    return (
      <span class={isDone ? 'box shut ticked' : 'box shut'}>
        <span class="unseen">{isDone ? 'done' : 'open'}</span>
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

/** One step with its cautions beside it. */
const StepLine = ({ step, shown }: { step: JobStepLine; shown: JobShown }) => (
  <li id={`step-${step.position}`} class={step.doneAt === undefined ? undefined : 'past'}>
    <Tick step={step} shown={shown} />
    <div>
      <b>{sayChecklistStep(step, shown.names)}</b>
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

/** The checklist in the order of the bench, and the one button that says it is all in. */
export const Checklist = ({ shown }: { shown: JobShown }) => {
  const { job, steps } = shown.view
  const isOpen = job.state === 'on the bench'
  return (
    <section id="steps">
      <h2>Checklist</h2>
      {!isOpen && job.fittedAt === undefined && job.state !== 'called off' && (
        <p class="soft">It can be ticked once the job is started.</p>
      )}
      <ol class="checklist">
        {steps.map((step) => (
          <StepLine step={step} shown={shown} />
        ))}
      </ol>
      {isOpen && job.fittedAt === undefined && (
        <Act shown={shown} step="fitted" to="fitted">
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
      {job.fittedAt !== undefined && (
        <p class="soft">
          In since {shown.figures.date(job.fittedAt)}.{' '}
          <a href={pathTo('machines', job.machineTag)}>The page of {job.machineTag}</a> shows the machine as
          it is now.
        </p>
      )}
    </section>
  )
}
