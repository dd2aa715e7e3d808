import type { Job, PartOut } from '../../core/job/job.ts'
import type { Condition } from '../../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { partsOutOf, setStepsDone, stepsOfJobs, updatePartOut } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { listShelf, nextItemId, takeFromShelf, upsertShelf } from '../../store/shelf.ts'
import { type JobId, onJob } from './onJob.ts'
import { notFittedYet } from './problems.ts'

/** What becomes of a part that came out. */
export type Decision =
  | {
      readonly outcome: 'on the shelf'
      readonly condition: Condition
      readonly priceMinor: number
      /** What the owner gets for it. */
      readonly creditMinor: number
      readonly warrantyMonths?: number | undefined
      readonly warrantyEndsWith?: string | undefined
      readonly note?: string | undefined
    }
  | { readonly outcome: 'scrapped'; readonly creditMinor: number; readonly note?: string | undefined }
  | { readonly outcome: 'given back'; readonly note?: string | undefined }
  /** Takes an earlier decision back. */
  | { readonly outcome: 'to test' }

/**
 * A part that came out was tested: it goes onto the shelf as an item of its own, back to its owner, or to scrap. A
 * decision can be taken back while the job is on the bench and the item is still on the shelf.
 */
export const decidePartOut = (
  store: Store,
  jobId: string,
  outId: string,
  decision: Decision,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    const out = (await partsOutOf(tx, jobId)).find(({ id }) => id === outId)
    const problems = await outProblems(tx, job, out, outId)
    if (out === undefined || problems.length > 0) return failed(...problems)
    if (out.itemId !== undefined) await takeFromShelf(tx, out.itemId, 1)
    await updatePartOut(tx, await decided(tx, job, out, decision, at))
    await tickTests(tx, jobId)
    return ok({ jobId })
  })

async function outProblems(tx: Db, job: Job, out: PartOut | undefined, outId: string): Promise<Problem[]> {
  if (out === undefined) {
    const next = 'No such part came out in this job. Open the job again.'
    return [{ code: 'not found', field: 'part', got: outId, next }]
  }
  if (job.fittedAt === undefined) return [notFittedYet(job)]
  if (job.state !== 'on the bench') {
    const next = `${job.id} is ${job.state}; what became of its parts is written down. Change the item on the shelf instead.`
    return [{ code: 'conflict', field: 'part', next }]
  }
  if (out.itemId === undefined) return []
  const line = (await listShelf(tx)).find(({ item }) => item.id === out.itemId)
  if (line !== undefined && line.item.quantity > 0) return []
  const holders = (line?.putAside ?? []).map(({ jobId }) => jobId).join(', ')
  const why = holders === '' ? 'is no longer on the shelf' : `is put aside for ${holders}`
  const next = `${out.itemId} ${why}, so what became of this part stays as it is.`
  return [{ code: 'conflict', field: 'part', next }]
}

/** The part with its outcome; one for the shelf gets its item first. */
async function decided(
  tx: Db,
  job: Job,
  { id, partId, creditMinor }: PartOut,
  decision: Decision,
  at: string,
): Promise<PartOut> {
  if (decision.outcome === 'to test') return { id, partId, outcome: 'to test', creditMinor }
  const { outcome, note } = decision
  const said = { id, partId, outcome, outcomeAt: at, note }
  if (decision.outcome === 'given back') return { ...said, creditMinor: 0 }
  if (decision.outcome === 'scrapped') return { ...said, creditMinor: decision.creditMinor }
  const { condition, priceMinor, warrantyMonths, warrantyEndsWith } = decision
  const itemId = await nextItemId(tx)
  const from = `came out of ${job.machineTag} in ${job.id}`
  await upsertShelf(tx, [
    {
      ...{ id: itemId, partId, condition, quantity: 1, priceMinor, warrantyMonths, warrantyEndsWith, at },
      note: note === undefined ? from : `${note}; ${from}`,
    },
  ])
  return { ...said, creditMinor: decision.creditMinor, itemId }
}

/** Ticks as many "test what came out" steps of each part as were decided. */
export async function tickTests(tx: Db, jobId: string): Promise<void> {
  const outs = await partsOutOf(tx, jobId)
  const tests = ((await stepsOfJobs(tx, [jobId])).get(jobId) ?? []).filter(
    ({ what }) => what === 'test what came out',
  )
  for (const partId of new Set(tests.map(({ ref }) => ref))) {
    const steps = tests.filter(({ ref }) => ref === partId)
    const dates = outs.flatMap((out) =>
      out.partId === partId && out.outcomeAt !== undefined ? [out.outcomeAt] : [],
    )
    for (const [i, { position }] of steps.entries())
      await setStepsDone(tx, jobId, [position], dates[i] ?? null)
  }
}
