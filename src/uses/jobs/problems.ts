import type { Job } from '../../core/job/job.ts'
import { type JobStep, jobStepsFrom } from '../../core/job/states.ts'
import type { Problem } from '../../problem.ts'
import { sayStepName } from '../../words/job.ts'

export const noSuchJob = (got: string): Problem => ({
  code: 'not found',
  field: 'job',
  got,
  next: 'There is no such job. The list of jobs shows them all.',
})

/** A step that cannot be taken from where the job is; says what can. */
export function cannotStep({ id, state, fittedBy }: Job, step: JobStep | 'fitted'): Problem {
  const can = jobStepsFrom(state).map((s) => sayStepName(s, fittedBy))
  const now = can.length === 0 ? 'Nothing more happens to it.' : `What can be done now: ${can.join(', ')}.`
  const next = `${id} is ${state}, so "${sayStepName(step, fittedBy)}" is not a step from here. ${now}`
  return { code: 'conflict', field: 'job', next }
}

/** Parts that are in the machine cannot go back to the shelf by a word. */
export const alreadyFitted = ({ id, machineTag }: Job, what: string): Problem => ({
  code: 'conflict',
  field: 'job',
  next: `The parts of ${id} are in ${machineTag} already, so it cannot be ${what}. Measure, settle and finish it. If they are to come out again, that is a new question and a job of its own.`,
})

export const notFittedYet = ({ id }: Job): Problem => ({
  code: 'conflict',
  field: 'job',
  next: `The parts of ${id} are not in yet. Say "It is all in" first.`,
})
