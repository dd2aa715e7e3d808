import type { Build } from '../../core/build.ts'
import type { Run, Title } from '../../core/gain/run.ts'
import type { Job } from '../../core/job/job.ts'
import { fittedOf, linkAsItRuns, memoryAsItRuns } from '../../core/limits/asItRuns.ts'
import { asProven, seenMemoryOf } from '../../core/limits/fromRuns.ts'
import type { LimitKey, Limits } from '../../core/limits/limit.ts'
import { limitsOf } from '../../core/limits/resolve.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { setStepsDone, stepsOfJobs } from '../../store/jobs.ts'
import { type LoadedMachine, loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { nextRunId, runsOfMachine, upsertRuns } from '../../store/runs.ts'
import { listTitles } from '../../store/titles.ts'
import { limitName } from '../../words/limits.ts'
import { ownRuns } from '../ownRuns.ts'
import { lowProblems, versionProblem } from '../runProblems.ts'
import { onJob } from './onJob.ts'

/** A measurement as typed in. */
export type Measured = Pick<Run, 'titleId' | 'settingId' | 'titleVersion' | 'averageFps' | 'low1Fps' | 'note'>

/**
 * Notes a run made on the bench: a run of the shop like any other, with what is in the machine now as core computes
 * it. Where a figure that runs are compared by is not known, the run is refused and the figure is named.
 */
export const recordRun = (
  store: Store,
  jobId: string,
  measured: Measured,
  at: string,
): Promise<Result<{ readonly jobId: string; readonly runId: string }>> =>
  onJob(store, jobId, async (tx, job) => {
    const title = (await listTitles(tx)).find(({ id }) => id === measured.titleId)
    const problems = runProblems(job, measured, title)
    if (problems.length > 0) return failed(...problems)
    const loaded = await loadMachine(tx, job.machineTag)
    if (loaded === undefined) throw new Error('a job without its machine')
    const fitted = fittedNow(loaded, await runsOfMachine(tx, job.machineTag))
    if (!fitted.ok) return fitted
    const id = await nextRunId(tx)
    const { titleId, settingId, titleVersion, averageFps, low1Fps, note } = measured
    await upsertRuns(tx, [
      {
        ...{ id, at, machineTag: job.machineTag, fitted: fitted.value },
        ...{ titleId, settingId, titleVersion, averageFps, low1Fps, note },
      },
    ])
    if (job.fittedAt !== undefined) await tickMeasured(tx, job, `${titleId}@${settingId}`, at)
    return ok({ jobId, runId: id })
  })

function runProblems(job: Job, measured: Measured, title: Title | undefined): Problem[] {
  const { titleId, settingId, titleVersion } = measured
  if (job.state !== 'on the bench' && job.state !== 'done') {
    const next = `${job.id} is ${job.state}. Runs are noted once the machine is on the bench.`
    return [{ code: 'conflict', field: 'job', next }]
  }
  const version = versionProblem(titleVersion, title)
  const problems: Problem[] = version === undefined ? [] : [version]
  if (!job.promised.some((p) => p.titleId === titleId && p.settingId === settingId)) {
    const next = 'Choose one of the titles that were promised, at the setting it was promised at.'
    problems.push({ code: 'not allowed', field: 'title', got: `${titleId} at ${settingId}`, next })
  }
  return [...problems, ...lowProblems(measured)]
}

/** What is in the machine as it runs, or what is missing to say so. */
export function fittedNow(loaded: LoadedMachine, runs: readonly Run[]): Result<Run['fitted']> {
  const own = ownRuns(loaded, runs)
  const machine = asProven(loaded.machine, own)
  const limits = limitsOf(machine.build, machine.claims)
  const seen = seenMemoryOf(own)
  const fitted = fittedOf(machine.build, limits, seen)
  if (fitted !== undefined) return ok(fitted)
  const { tag, build } = machine
  const lacking = [
    build.processor === undefined ? 'no processor is known' : undefined,
    build.card === undefined ? 'no graphics card is known' : undefined,
    limits.displayPluggedInto.known && limits.displayPluggedInto.value === 'board'
      ? 'the display sits in the board, so the card is not what runs'
      : undefined,
    (memoryAsItRuns(build, limits) ?? seen) === undefined
      ? `how its memory runs is not known (${named(['memoryRunsMts'], limits)})`
      : undefined,
    build.card !== undefined && linkAsItRuns(build, limits) === undefined
      ? linkLacks(build, limits)
      : undefined,
  ].filter((what) => what !== undefined)
  const next = `A run tells nothing without what ran: ${lacking.join('; ')}. Enter it on the page of ${tag}, then note the run.`
  return failed({ code: 'missing', field: 'machine', next })
}

function linkLacks({ card }: Build, limits: Limits): string {
  if (card?.pcieGen === undefined || card.pcieLanes === undefined)
    return 'the card’s link is not known: enter its generation and lanes in its own figures'
  return `the card’s link is not known (${named(['slotPcieGen', 'slotLanes', 'processorPcieGen', 'processorPcieLanes'], limits)})`
}

const named = (keys: readonly LimitKey[], limits: Limits): string =>
  keys
    .filter((key) => !limits[key].known)
    .map(limitName)
    .join(', ')

async function tickMeasured(tx: Db, { id }: Job, ref: string, at: string): Promise<void> {
  const steps = (await stepsOfJobs(tx, [id])).get(id) ?? []
  const open = steps.filter((s) => s.what === 'measure' && s.ref === ref && s.doneAt === undefined)
  await setStepsDone(
    tx,
    id,
    open.map(({ position }) => position),
    at,
  )
}
