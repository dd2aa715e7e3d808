import type { Job } from '../../core/job/job.ts'
import { dayOf, timeOf } from '../../input/dates.ts'
import type { Problem, Result } from '../../problem.ts'
import { failed } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { sayBookedFor } from '../../words/job.ts'
import { shopOrNeutral } from '../shop.ts'
import { type JobId, onJob, takeStep } from './onJob.ts'

export type Booking = {
  /** ISO 8601 UTC. */
  readonly bookedFor: string
  /** What the owner left as a deposit; absent: nothing new. */
  readonly depositMinor?: number | undefined
}

/** A job gets a date, or another one; what it needs is put aside again where a missed date gave it back. */
export const bookJob = (store: Store, jobId: string, booking: Booking, at: string): Promise<Result<JobId>> =>
  onJob(store, jobId, (tx, job) => bookIn(tx, job, booking, at))

/** As `bookJob`, within a transaction that is given up where this ends in a problem. */
export async function bookIn(
  tx: Db,
  job: Job,
  { bookedFor, depositMinor }: Booking,
  at: string,
): Promise<Result<JobId>> {
  const problems = await bookProblems(tx, bookedFor, at)
  if (problems.length > 0) return failed(...problems)
  const deposit = depositMinor === undefined ? {} : { depositMinor, depositAt: at }
  const because = await whenText(tx, bookedFor)
  return takeStep(tx, job, 'book', at, { change: { bookedFor, ...deposit }, because })
}

/** The day and time of an appointment as the history keeps it, in the shop's zone. */
export async function whenText(db: Db, bookedFor: string): Promise<string> {
  const { timeZone } = await shopOrNeutral(db)
  return sayBookedFor(dayOf(bookedFor, timeZone), timeOf(bookedFor, timeZone))
}

/** A day that is over can't be booked; an earlier hour of today can be written down afterwards. */
export async function bookProblems(tx: Db, bookedFor: string, at: string): Promise<Problem[]> {
  const { timeZone } = await shopOrNeutral(tx)
  const day = dayOf(bookedFor, timeZone)
  if (day >= dayOf(at, timeZone)) return []
  const next = 'This day is over. Book today or a later day.'
  return [{ code: 'not allowed', field: 'bookedDay', got: day, next }]
}
