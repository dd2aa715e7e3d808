import type { Job } from '../../core/job/job.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { partsOutOf, setStepsDone, stepsOfJobs, updateJob } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { type JobId, onJob, takeStep } from './onJob.ts'
import { notFittedYet } from './problems.ts'

/** What the owner paid in all, the deposit included; below zero where the shop paid. A later amount replaces it. */
export const settleJob = (
  store: Store,
  jobId: string,
  settledMinor: number,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    if (job.fittedAt === undefined) return failed(notFittedYet(job))
    await updateJob(tx, jobId, { settledMinor, settledAt: at })
    await tick(tx, job, 'settle', at)
    return ok({ jobId })
  })

/** Of a missed promise: what was checked, and what the owner can choose, a line each; it goes into the mail. */
export type MissNotes = { readonly checked?: string | undefined; readonly choices?: string | undefined }

/** Written down for the mail about a missed promise; empty takes it away again. */
export const noteMiss = (
  store: Store,
  jobId: string,
  { checked, choices }: MissNotes,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    if (job.fittedAt === undefined) return failed(notFittedYet(job))
    await updateJob(tx, jobId, { missChecked: checked ?? null, missChoices: choices ?? null })
    return ok({ jobId })
  })

/** The owner was told, or it turned out that nobody had. */
export const markTold = (store: Store, jobId: string, told: boolean, at: string): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    if (job.fittedAt === undefined) return failed(notFittedYet(job))
    await updateJob(tx, jobId, { toldAt: told ? at : null })
    await tick(tx, job, 'tell the owner', told ? at : null)
    return ok({ jobId })
  })

/** The machine leaves the bench for good. What came out must have gone somewhere, and the price must be settled. */
export const finishJob = (store: Store, jobId: string, at: string): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    if (job.fittedAt === undefined && job.state === 'on the bench') return failed(notFittedYet(job))
    const problems = job.state === 'on the bench' ? await openEnds(tx, job) : []
    return problems.length > 0 ? failed(...problems) : takeStep(tx, job, 'finish', at)
  })

async function openEnds(tx: Db, job: Job): Promise<Problem[]> {
  const untested = (await partsOutOf(tx, job.id)).filter(({ outcome }) => outcome === 'to test').length
  const problems: Problem[] = []
  if (untested > 0) {
    const parts = untested === 1 ? 'A part that came out waits' : `${untested} parts that came out wait`
    const next = `${parts} to be tested. Put it on the shelf, give it back or scrap it first.`
    problems.push({ code: 'missing', field: 'parts', next })
  }
  if (job.settledAt === undefined)
    problems.push({ code: 'missing', field: 'settledMinor', next: 'Settle the price first.' })
  return problems
}

async function tick(tx: Db, { id }: Job, what: 'settle' | 'tell the owner', doneAt: string | null) {
  const steps = (await stepsOfJobs(tx, [id])).get(id) ?? []
  await setStepsDone(
    tx,
    id,
    steps.filter((s) => s.what === what).map((s) => s.position),
    doneAt,
  )
}
