import type { Result } from '../../problem.ts'
import { failed, ok } from '../../problem.ts'
import { updateJob } from '../../store/jobs.ts'
import type { Store } from '../../store/open.ts'
import { whenText } from './bookJob.ts'
import { type JobId, onJob, takeStep } from './onJob.ts'
import { alreadyFitted } from './problems.ts'

/** The owner did not come: the date goes, and what was put aside is for sale again. */
export const missedJob = (
  store: Store,
  jobId: string,
  because: string | undefined,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    const date = job.bookedFor === undefined ? undefined : await whenText(tx, job.bookedFor)
    const said = [date, because].filter((text) => text !== undefined).join('; ')
    return takeStep(tx, job, 'missed', at, {
      change: { bookedFor: null },
      because: said === '' ? undefined : said,
    })
  })

/** The machine is on the bench, or the parts are with the owner who fits them. */
export const startJob = (store: Store, jobId: string, at: string): Promise<Result<JobId>> =>
  onJob(store, jobId, (tx, job) => takeStep(tx, job, 'start', at))

/** The machine leaves the bench for another day; the parts stay put aside, the ticks stay. */
export const putOffJob = (
  store: Store,
  jobId: string,
  because: string | undefined,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) =>
    job.fittedAt !== undefined
      ? failed(alreadyFitted(job, 'put off'))
      : takeStep(tx, job, 'put off', at, { change: { bookedFor: null }, because }),
  )

/** The job is off, from any open state: everything goes back to the shelf. */
export const callOff = (
  store: Store,
  jobId: string,
  because: string | undefined,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) =>
    job.fittedAt !== undefined
      ? failed(alreadyFitted(job, 'called off'))
      : takeStep(tx, job, 'call off', at, { because }),
  )

/** When the shop wants to look at the job again; undefined: not at all. */
export const remindJob = (
  store: Store,
  jobId: string,
  remindAt: string | undefined,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    await updateJob(tx, job.id, { remindAt: remindAt ?? null })
    return ok({ jobId: job.id })
  })
