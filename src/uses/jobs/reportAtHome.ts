import type { OwnerReport } from '../../core/job/job.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { insertOwnerReport } from '../../store/ownerReports.ts'
import { type JobId, onJob } from './onJob.ts'
import { notFittedYet } from './problems.ts'

/** What an owner says, as typed in. */
export type Reported = Pick<OwnerReport, 'titleId' | 'settingId' | 'averageFps' | 'low1Fps' | 'note'>

/** Notes what the owner measured at home. It is shown beside the promise and is never one of the shop's runs. */
export const reportAtHome = (
  store: Store,
  jobId: string,
  reported: Reported,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    if (job.fittedAt === undefined) return failed(notFittedYet(job))
    const { titleId, settingId, averageFps, low1Fps, note } = reported
    const problems: Problem[] = []
    if (!job.promised.some((p) => p.titleId === titleId && p.settingId === settingId)) {
      const next = 'Choose one of the titles that were promised, at the setting it was promised at.'
      problems.push({ code: 'not allowed', field: 'reportTitle', got: titleId, next })
    }
    if (low1Fps !== undefined && low1Fps > averageFps) {
      const next = 'The 1% low can’t be above the average: 99 of 100 frames beat it.'
      problems.push({ code: 'not allowed', field: 'reportLow1Fps', got: String(low1Fps), next })
    }
    if (problems.length > 0) return failed(...problems)
    const { machineTag, customerId } = job
    await insertOwnerReport(tx, {
      ...{ machineTag, jobId, customerId, at, titleId, settingId, averageFps, low1Fps, note },
    })
    return ok({ jobId })
  })
