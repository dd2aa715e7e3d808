import type { Child } from 'hono/jsx'
import type { JobStep } from '../core/job/states.ts'
import { sayAct } from '../words/job.ts'
import { Field } from './form.tsx'
import type { JobShown } from './jobShown.ts'
import { OnceKey } from './onceKey.tsx'

/** A button with what happens said beside it; fields stand above. */
export const Act = (props: {
  shown: JobShown
  step: JobStep | 'fitted'
  to: string
  quiet?: boolean
  children?: Child
}) => {
  const { shown, step, to, quiet, children } = props
  const { name, does } = sayAct(step, shown.view.job.fittedBy)
  return (
    <form method="post" action={`${shown.path}/${to}`} class="act">
      <OnceKey />
      {children}
      <p class="does">
        <button class={quiet ? 'button quiet' : 'button'} type="submit">
          {name}
        </button>
        <span class="soft">{does}</span>
      </p>
    </form>
  )
}

/** The same for a step that is pressed less often, folded away. */
const Folded = (props: {
  shown: JobShown
  step: JobStep
  to: string
  head: string
  open?: boolean
  children?: Child
}) => {
  const { head, open, ...act } = props
  return (
    <details open={open}>
      <summary>{head}</summary>
      <Act {...act} quiet />
    </details>
  )
}

const Why = ({ shown, label }: { shown: JobShown; label: string }) => (
  <Field name="because" label={label} typed={shown.typed} problems={shown.problems} />
)

type BookProps = Pick<JobShown, 'typed' | 'problems'> & {
  depositHint?: string | undefined
  /** The visit is on the bench, so there is no day to choose. */
  isHere?: boolean | undefined
}

/** Day, time and deposit. */
export const BookFields = ({ typed, problems, depositHint, isHere }: BookProps) => (
  <div class="grid">
    {!isHere && (
      <>
        <Field name="bookedDay" label="Day" type="date" typed={typed} problems={problems} narrow />
        <Field
          name="bookedTime"
          label="Time"
          hint="Such as 17:30; empty: 10:00."
          typed={typed}
          problems={problems}
          narrow
        />
      </>
    )}
    <Field
      name="deposit"
      label="Deposit left"
      hint={depositHint ?? 'Empty: none, or as noted before.'}
      inputmode="decimal"
      typed={typed}
      problems={problems}
      narrow
    />
  </div>
)

/** The steps that can be taken before the work: book, start, missed, and the ways out. */
export const Moves = ({ shown }: { shown: JobShown }) => {
  const { job } = shown.view
  const has = (field: string) => shown.problems.some((p) => p.field === field)
  const booking = has('bookedDay') || has('bookedTime') || has('deposit') || has('shelf')
  if (job.state === 'done' || job.state === 'called off' || job.fittedAt !== undefined) return null
  return (
    <section id="next">
      <h2>{job.state === 'on the bench' ? 'If it does not go on' : 'What happens next'}</h2>
      {job.state === 'booked' && (
        <>
          <Act shown={shown} step="start" to="start" />
          <Act shown={shown} step="missed" to="missed" quiet />
          <Folded shown={shown} step="book" to="book" head="Book another day" open={booking}>
            <BookFields {...shown} />
          </Folded>
        </>
      )}
      {job.state === 'agreed' && (
        <>
          <Act shown={shown} step="book" to="book">
            <BookFields {...shown} />
          </Act>
          <Act shown={shown} step="start" to="start" quiet />
        </>
      )}
      {job.state === 'on the bench' && (
        <Folded
          shown={shown}
          step="put off"
          to="put-off"
          head={sayAct('put off', job.fittedBy).name}
          open={has('because')}
        >
          <Why shown={shown} label="Why, if it matters" />
        </Folded>
      )}
      <Folded shown={shown} step="call off" to="call-off" head="Call it off" open={has('callOffBecause')}>
        <CallOffNote shown={shown} />
      </Folded>
    </section>
  )
}

const CallOffNote = ({ shown }: { shown: JobShown }) => {
  const { depositMinor } = shown.view.job
  return (
    <>
      {depositMinor !== undefined && depositMinor > 0 && (
        <p>
          {shown.figures.money(depositMinor)} was left as a deposit. Settle with the owner what becomes of it,
          and note it here.
        </p>
      )}
      <Field
        name="callOffBecause"
        label="Why, and what becomes of a deposit"
        typed={shown.typed}
        problems={shown.problems}
      />
    </>
  )
}

/** When to look again, whatever state it is in. */
export const Reminder = ({ shown }: { shown: JobShown }) => {
  const { job } = shown.view
  if (job.state === 'done' || job.state === 'called off') return null
  return (
    <details open={shown.problems.some((p) => p.field === 'remindDay')}>
      <summary>
        {job.remindAt === undefined
          ? 'No reminder is set'
          : `It comes up again on ${shown.figures.date(job.remindAt)}`}
      </summary>
      <form method="post" action={`${shown.path}/remind`} class="act">
        <Field
          name="remindDay"
          label="Look at it again on"
          type="date"
          hint="It stands under “Today and overdue” from that day on. Empty: no reminder."
          typed={shown.typed}
          problems={shown.problems}
          narrow
        />
        <p class="does">
          <button class="button quiet" type="submit">
            Set the reminder
          </button>
        </p>
      </form>
    </details>
  )
}
