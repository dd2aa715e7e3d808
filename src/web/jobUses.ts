import type { Result } from '../problem.ts'
import type { NewOwner } from '../uses/changeOwner.ts'
import type { Agreement } from '../uses/jobs/agreeJob.ts'
import type { Booking } from '../uses/jobs/bookJob.ts'
import type { MissNotes } from '../uses/jobs/closeJob.ts'
import type { FittingNotes } from '../uses/jobs/finishFitting.ts'
import type { JobLine, JobsView, JobView, MachineBook } from '../uses/jobs/jobViews.ts'
import type { JobId } from '../uses/jobs/onJob.ts'
import type { Decision } from '../uses/jobs/partOut.ts'
import type { Measured } from '../uses/jobs/recordRun.ts'
import type { Reported } from '../uses/jobs/reportAtHome.ts'
import type { ToAgree, WhichAnswer } from '../uses/jobs/toAgree.ts'

/** What the pages of jobs ask for. Each step is one transaction; a problem leaves everything as it was. */
export type JobUses = {
  jobs(): Promise<JobsView>
  job(jobId: string): Promise<Result<JobView>>
  jobsOfQuestion(questionId: string): Promise<readonly JobLine[]>
  /** Jobs, warranties, owners' reports and former owners of a machine. */
  machineBook(tag: string): Promise<MachineBook>
  /** What a yes to this option would agree. Fields of its problems: `optionId answer question gain`. */
  toAgree(questionId: string, optionId: string, which: WhichAnswer): Promise<Result<ToAgree>>
  /** Fields of its problems: `optionId bookedDay fittedBy shelf job machine`. */
  agreeJob(questionId: string, optionId: string, agreement: Agreement): Promise<Result<JobId>>
  /** Fields of its problems: `bookedDay shelf job`. */
  bookJob(jobId: string, booking: Booking): Promise<Result<JobId>>
  missedJob(jobId: string, because: string | undefined): Promise<Result<JobId>>
  startJob(jobId: string): Promise<Result<JobId>>
  putOffJob(jobId: string, because: string | undefined): Promise<Result<JobId>>
  callOffJob(jobId: string, because: string | undefined): Promise<Result<JobId>>
  /** `undefined` takes the reminder away. */
  remindJob(jobId: string, remindAt: string | undefined): Promise<Result<JobId>>
  tickStep(jobId: string, position: number, done: boolean): Promise<Result<JobId>>
  finishFitting(jobId: string, notes: FittingNotes): Promise<Result<JobId>>
  /** Fields of its problems: `title low1Fps machine job`. */
  recordRun(
    jobId: string,
    measured: Measured,
  ): Promise<Result<{ readonly jobId: string; readonly runId: string }>>
  /** Fields of its problems: `part`. */
  decidePartOut(jobId: string, outId: string, decision: Decision): Promise<Result<JobId>>
  settleJob(jobId: string, settledMinor: number): Promise<Result<JobId>>
  noteMiss(jobId: string, notes: MissNotes): Promise<Result<JobId>>
  markTold(jobId: string, told: boolean): Promise<Result<JobId>>
  /** Fields of its problems: `parts settledMinor job`. */
  finishJob(jobId: string): Promise<Result<JobId>>
  /** Fields of its problems: `reportTitle reportLow1Fps job`. */
  reportAtHome(jobId: string, reported: Reported): Promise<Result<JobId>>
  /** Fields of its problems: `ownerName machine`. */
  changeOwner(tag: string, newOwner: NewOwner): Promise<Result<{ readonly tag: string }>>
}
