import { TICKED_BY_HAND } from '../../core/job/job.ts'
import type { Result } from '../../problem.ts'
import { failed, ok } from '../../problem.ts'
import { setStepsDone, stepsOfJobs } from '../../store/jobs.ts'
import type { Store } from '../../store/open.ts'
import { type JobId, onJob } from './onJob.ts'

/** Ticks one step of the checklist, or takes the tick back. */
export const tickStep = (
  store: Store,
  jobId: string,
  position: number,
  done: boolean,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    const step = (await stepsOfJobs(tx, [jobId])).get(jobId)?.find((s) => s.position === position)
    if (step === undefined) {
      const next = 'There is no such step on the checklist. Open the job again.'
      return failed({ code: 'not found', field: 'step', got: String(position), next })
    }
    if (job.state !== 'on the bench') {
      const next = `${job.id} is ${job.state}. Steps are ticked while it is on the bench.`
      return failed({ code: 'conflict', field: 'step', next })
    }
    if (!TICKED_BY_HAND.has(step.what)) {
      const next =
        'This step is ticked by what is recorded below: a run, a part, an amount, or that the owner was told.'
      return failed({ code: 'conflict', field: 'step', next })
    }
    if (job.fittedAt !== undefined) {
      const next = 'The parts are in and the machine is written down so. These ticks stay.'
      return failed({ code: 'conflict', field: 'step', next })
    }
    await setStepsDone(tx, jobId, [position], done ? at : null)
    return ok({ jobId })
  })
