import { and, asc, desc, eq, inArray, isNull, or, type SQL, sql } from 'drizzle-orm'
import { customers, jobSteps, jobs, partsOut, stateChanges } from '../../db/schema.ts'
import type { Step } from '../core/job/checklist.ts'
import { FITTERS, type Job, type JobStepLine, OUT_OUTCOMES, type PartOut } from '../core/job/job.ts'
import { JOB_STATES, type JobState } from '../core/job/states.ts'
import { promiseSchema, stepSchema } from '../input/stored.ts'
import type { Db } from './open.ts'
import { groupBy, inBatches, insertRows, oneOf, withoutNulls } from './rows.ts'

/** The id after the highest `J-` number: `J-0001` where there is no job yet. */
export async function nextJobId(db: Db): Promise<string> {
  const [row] = await db
    .select({ highest: sql<number | null>`max(cast(substr(${jobs.id}, 3) as integer))` })
    .from(jobs)
    .where(sql`${jobs.id} glob 'J-[0-9]*' and ${jobs.id} not glob 'J-*[^0-9]*' and length(${jobs.id}) <= 11`)
  return `J-${String((row?.highest ?? 0) + 1).padStart(4, '0')}`
}

/** Adds a job with its checklist. */
export async function insertJob(tx: Db, job: Job, steps: readonly Step[]): Promise<void> {
  const { promised, answerId, ...row } = job
  await tx.insert(jobs).values({ ...row, answerId: Number(answerId), promise: promiseSchema.parse(promised) })
  await insertRows(
    tx,
    jobSteps,
    steps.map((step, position) => ({ jobId: job.id, position, step: stepSchema.parse(step) })),
  )
}

/** What a step may change of a job; null clears. */
export type JobChange = {
  readonly [K in
    | 'bookedFor'
    | 'depositMinor'
    | 'depositAt'
    | 'fittedAt'
    | 'settledMinor'
    | 'settledAt'
    | 'toldAt'
    | 'remindAt'
    | 'note'
    | 'missChecked'
    | 'missChoices']?: (typeof jobs.$inferSelect)[K]
} & { readonly state?: JobState }

export async function updateJob(tx: Db, id: string, change: JobChange): Promise<void> {
  if (Object.keys(change).length > 0) await tx.update(jobs).set(change).where(eq(jobs.id, id))
}

/** What a visit is for from now on, with its whole checklist; ticks come along. */
export async function replaceAgreement(
  tx: Db,
  id: string,
  {
    answerId,
    optionId,
    promised,
    agreedMinor,
  }: Pick<Job, 'answerId' | 'optionId' | 'promised' | 'agreedMinor'>,
  steps: readonly (Step & { readonly doneAt?: string | undefined })[],
): Promise<void> {
  await tx
    .update(jobs)
    .set({ answerId: Number(answerId), optionId, promise: promiseSchema.parse(promised), agreedMinor })
    .where(eq(jobs.id, id))
  await tx.delete(jobSteps).where(eq(jobSteps.jobId, id))
  await insertRows(
    tx,
    jobSteps,
    steps.map(({ doneAt = null, ...step }, position) => ({
      ...{ jobId: id, position, step: stepSchema.parse(step), doneAt },
    })),
  )
}

/** Undefined for an unknown id. */
export async function loadJob(db: Db, id: string): Promise<Job | undefined> {
  const [row] = await db.select().from(jobs).where(eq(jobs.id, id))
  return row && jobOf(row)
}

export type NamedJob = Job & { readonly customerName?: string | undefined }

/** All jobs, the newest first, with their owners' names. */
export const listJobs = (db: Db): Promise<NamedJob[]> => jobsWhere(db, undefined)

/** Jobs in these states, likewise. */
export const jobsIn = (db: Db, states: readonly JobState[]): Promise<NamedJob[]> =>
  jobsWhere(db, inArray(jobs.state, [...states]))

/** Ids of the jobs in one state, the newest first. */
export async function jobIdsIn(db: Db, state: JobState): Promise<string[]> {
  const rows = await db
    .select({ id: jobs.id })
    .from(jobs)
    .where(eq(jobs.state, state))
    .orderBy(desc(jobs.agreedAt), desc(jobs.id))
  return rows.map(({ id }) => id)
}

/** Jobs that are not over, and those that are done while their owners are not told, likewise. */
export const jobsToDo = (db: Db): Promise<NamedJob[]> =>
  jobsWhere(
    db,
    or(
      inArray(jobs.state, ['agreed', 'booked', 'on the bench']),
      and(eq(jobs.state, 'done'), isNull(jobs.toldAt)),
    ),
  )

/** Jobs that took a step since then, or were agreed since, likewise. */
export const jobsSteppedSince = (db: Db, since: string): Promise<NamedJob[]> =>
  jobsWhere(
    db,
    sql`${jobs.id} in (
      select ${stateChanges.ref} from ${stateChanges} where ${stateChanges.about} = 'job' and ${stateChanges.at} >= ${since}
      union select ${jobs.id} from ${jobs} where ${jobs.agreedAt} >= ${since})`,
  )

/** Jobs of one machine with their owners' names, likewise. */
export const namedJobsOfMachine = (db: Db, tag: string): Promise<NamedJob[]> =>
  jobsWhere(db, eq(jobs.machineTag, tag))

async function jobsWhere(db: Db, where: SQL | undefined): Promise<NamedJob[]> {
  const rows = await db
    .select({ job: jobs, customerName: customers.name })
    .from(jobs)
    .leftJoin(customers, eq(jobs.customerId, customers.id))
    .where(where)
    .orderBy(desc(jobs.agreedAt), desc(jobs.id))
  return rows.map(({ job, customerName }) => ({
    ...jobOf(job),
    ...(customerName !== null && { customerName }),
  }))
}

/** Jobs of one question, the newest first. */
export async function jobsOfQuestion(db: Db, questionId: string): Promise<Job[]> {
  const rows = await db
    .select()
    .from(jobs)
    .where(eq(jobs.questionId, questionId))
    .orderBy(desc(jobs.agreedAt), desc(jobs.id))
  return rows.map(jobOf)
}

/** Jobs of one machine, the newest first. */
export async function jobsOfMachine(db: Db, tag: string): Promise<Job[]> {
  const rows = await db
    .select()
    .from(jobs)
    .where(eq(jobs.machineTag, tag))
    .orderBy(desc(jobs.agreedAt), desc(jobs.id))
  return rows.map(jobOf)
}

export async function stepsOfJobs(db: Db, ids: readonly string[]): Promise<Map<string, JobStepLine[]>> {
  const rows: (typeof jobSteps.$inferSelect)[] = []
  for (const some of inBatches(ids))
    rows.push(
      ...(await db
        .select()
        .from(jobSteps)
        .where(inArray(jobSteps.jobId, some))
        .orderBy(asc(jobSteps.jobId), asc(jobSteps.position))),
    )
  const of = groupBy(rows, (row) => row.jobId)
  return new Map(
    [...of].map(([id, lines]) => [
      id,
      lines.map(({ position, step, doneAt }) => ({
        ...stepSchema.parse(step),
        position,
        ...(doneAt !== null && { doneAt }),
      })),
    ]),
  )
}

/** Ticks steps (an instant) or unticks them (null). */
export async function setStepsDone(
  tx: Db,
  jobId: string,
  positions: readonly number[],
  doneAt: string | null,
): Promise<void> {
  if (positions.length === 0) return
  await tx
    .update(jobSteps)
    .set({ doneAt })
    .where(and(eq(jobSteps.jobId, jobId), inArray(jobSteps.position, [...positions])))
}

export async function partsOutOf(db: Db, jobId: string): Promise<PartOut[]> {
  const rows = await db.select().from(partsOut).where(eq(partsOut.jobId, jobId)).orderBy(asc(partsOut.id))
  return rows.map(({ id, jobId: _, outcome, ...row }) => ({
    ...withoutNulls(row),
    id: String(id),
    outcome: oneOf(OUT_OUTCOMES, outcome),
  }))
}

export async function insertPartsOut(
  tx: Db,
  jobId: string,
  outs: readonly Omit<PartOut, 'id'>[],
): Promise<void> {
  await insertRows(
    tx,
    partsOut,
    outs.map(({ outcomeAt = null, itemId = null, note = null, ...out }) => ({
      ...{ ...out, jobId, outcomeAt, itemId, note },
    })),
  )
}

/** Says what became of a part that came out. */
export async function updatePartOut(
  tx: Db,
  { id, outcome, outcomeAt, creditMinor, itemId, note }: PartOut,
): Promise<void> {
  await tx
    .update(partsOut)
    .set({ outcome, creditMinor, outcomeAt: outcomeAt ?? null, itemId: itemId ?? null, note: note ?? null })
    .where(eq(partsOut.id, Number(id)))
}

const jobOf = (row: typeof jobs.$inferSelect): Job => {
  const { promise, answerId, fittedBy, state, ...rest } = withoutNulls(row)
  return {
    ...rest,
    answerId: String(answerId),
    fittedBy: oneOf(FITTERS, fittedBy),
    state: oneOf(JOB_STATES, state),
    promised: promiseSchema.parse(promise),
  }
}
