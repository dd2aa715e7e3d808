import type { Job } from '../../core/job/job.ts'
import { remindAfter } from '../../core/job/reminders.ts'
import { type JobStep, jobAfter, STOCK_EFFECTS } from '../../core/job/states.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { type JobChange, loadJob, updateJob } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { endReservations, reservationsOf } from '../../store/reservations.ts'
import { addStateChange } from '../../store/stateChanges.ts'
import { cannotStep, noSuchJob } from './problems.ts'
import { putAside } from './stock.ts'

class Refused extends Error {
  readonly problems: readonly Problem[]
  constructor(problems: readonly Problem[]) {
    super('refused')
    this.problems = problems
  }
}

/** One transaction: what ends in a problem leaves nothing behind, whatever was written before it was found. */
export async function allOrNothing<T>(
  store: Store,
  work: (tx: Db) => Promise<Result<T>>,
): Promise<Result<T>> {
  try {
    return await store.write(async (tx) => {
      const result = await work(tx)
      if (!result.ok) throw new Refused(result.problems)
      return result
    })
  } catch (error) {
    if (error instanceof Refused) return failed(...error.problems)
    throw error
  }
}

/** The same about one job; an unknown id is a problem with code `not found`. */
export const onJob = <T>(
  store: Store,
  jobId: string,
  work: (tx: Db, job: Job) => Promise<Result<T>>,
): Promise<Result<T>> =>
  allOrNothing(store, async (tx) => {
    const job = await loadJob(tx, jobId)
    return job === undefined ? failed(noSuchJob(jobId)) : work(tx, job)
  })

export type JobId = { readonly jobId: string }

/**
 * One step along the roads of a job: its shelf items are put aside or given back as the step wants, the change is
 * kept, and the step is written down.
 */
export async function takeStep(
  tx: Db,
  job: Job,
  step: JobStep,
  at: string,
  more: { readonly change?: JobChange; readonly because?: string | undefined } = {},
): Promise<Result<JobId>> {
  const to = jobAfter(job.state, step)
  if (to === undefined) return failed(cannotStep(job, step))
  const effect = STOCK_EFFECTS[step]
  if (effect === 'hold') {
    const problems = await putAside(tx, job.id, neededOf(await reservationsOf(tx, job.id)), at)
    if (problems.length > 0) return failed(...problems)
  }
  if (effect === 'release') await endReservations(tx, job.id, { releasedAt: at })
  await updateJob(tx, job.id, { state: to, remindAt: remindAfter(step, at) ?? null, ...more.change })
  await addStateChange(tx, {
    ...{ about: 'job', ref: job.id, at, from: job.state, to, because: more.because },
  })
  return ok({ jobId: job.id })
}

/** What a job needs of the shelf, from what it ever put aside. */
function neededOf(reservations: readonly { readonly itemId: string; readonly quantity: number }[]) {
  const needed = new Map(reservations.map(({ itemId, quantity }) => [itemId, quantity]))
  return [...needed].map(([itemId, quantity]) => ({ itemId, quantity }))
}
