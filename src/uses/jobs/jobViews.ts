import type { Answer, Customer } from '../../core/answer.ts'
import { partsOf } from '../../core/build.ts'
import type { Run, Setting, Title } from '../../core/gain/run.ts'
import {
  isOpen,
  type Job,
  type JobStepLine,
  mayBeJoined,
  type OwnerReport,
  type PartOut,
  type Reservation,
  settleProposal,
} from '../../core/job/job.ts'
import { heldAgainst, type Kept, runsSince } from '../../core/job/promise.ts'
import { isOver } from '../../core/job/states.ts'
import type { Warranty } from '../../core/job/warranty.ts'
import type { Part } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import { dayOf } from '../../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import {
  jobsOfQuestion,
  jobsSteppedSince,
  jobsToDo,
  loadJob,
  namedJobsOfMachine,
  partsOutOf,
  stepsOfJobs,
} from '../../store/jobs.ts'
import { type FormerOwner, formerOwnersOf, type LoadedMachine, loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { reportsOfMachine } from '../../store/ownerReports.ts'
import { listPartNames, loadParts } from '../../store/parts.ts'
import { reservationsOf } from '../../store/reservations.ts'
import { runsOfMachine } from '../../store/runs.ts'
import { lastStepsOf, listStateChanges, type StateChange } from '../../store/stateChanges.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { warrantiesOf } from '../../store/warranties.ts'
import { sayJobWhat } from '../../words/job.ts'
import { shopOrNeutral } from '../shop.ts'
import { agreedOf } from './finishFitting.ts'
import { agreedBefore } from './joinVisit.ts'
import { noSuchJob } from './problems.ts'
import { fittedNow } from './recordRun.ts'

/** A job in one line. */
export type JobLine = Job & {
  readonly customerName?: string | undefined
  /** What goes in and what is done. */
  readonly what: string
  /** When its last step was taken. */
  readonly steppedAt: string
  /** A further change may be agreed for the same visit. */
  readonly mayBeJoined: boolean
}

export type JobsView = {
  /** Booked for today or an earlier day, or to be looked at again by now; the earliest first. */
  readonly due: readonly JobLine[]
  readonly booked: readonly JobLine[]
  /** Agreed, without a date. */
  readonly agreed: readonly JobLine[]
  readonly bench: readonly JobLine[]
  /** Done, and the owner is not told yet. */
  readonly untold: readonly JobLine[]
  readonly done: readonly JobLine[]
  readonly calledOff: readonly JobLine[]
}

/** Jobs that are over are listed that long; their pages stay. */
const LATELY_DAYS = 60
const DAY_MS = 86_400_000

export async function viewJobs({ db }: Store, at: string): Promise<JobsView> {
  const { timeZone } = await shopOrNeutral(db)
  const toDo = await jobsToDo(db)
  const since = new Date(Date.parse(at) - LATELY_DAYS * DAY_MS).toISOString()
  const over = (await jobsSteppedSince(db, since)).filter(({ id }) => !toDo.some((job) => job.id === id))
  return viewOf(await linesOf(db, newestFirst([...toDo, ...over])), at, timeZone)
}

/** Jobs that somebody has to do something about; those that are over are left out. */
export async function viewJobsToDo(
  { db }: Store,
  at: string,
): Promise<Pick<JobsView, 'due' | 'bench' | 'untold'>> {
  const { timeZone } = await shopOrNeutral(db)
  return viewOf(await linesOf(db, await jobsToDo(db)), at, timeZone)
}

const newestFirst = <J extends Job>(jobs: readonly J[]): J[] =>
  [...jobs].sort((a, b) => b.agreedAt.localeCompare(a.agreedAt) || b.id.localeCompare(a.id))

function viewOf(lines: readonly JobLine[], at: string, timeZone: string): JobsView {
  const today = dayOf(at, timeZone)
  const isPast = (date: string | undefined) => date !== undefined && dayOf(date, timeZone) <= today
  const isDue = ({ state, bookedFor, remindAt }: JobLine) =>
    state === 'booked' ? isPast(bookedFor) || isPast(remindAt) : !isOver(state) && isPast(remindAt)
  const due = lines.filter(isDue)
  const rest = lines.filter((line) => !due.includes(line))
  const of = (state: Job['state']) => rest.filter((line) => line.state === state)
  const lately = ({ steppedAt }: JobLine) => Date.parse(at) - Date.parse(steppedAt) <= LATELY_DAYS * DAY_MS
  return {
    due: due.sort(by((line) => line.bookedFor ?? line.remindAt)),
    booked: of('booked').sort(by((line) => line.bookedFor)),
    agreed: of('agreed').sort(by((line) => line.remindAt ?? line.agreedAt)),
    bench: of('on the bench').sort(by((line) => line.steppedAt)),
    untold: of('done').filter((line) => line.toldAt === undefined),
    done: of('done').filter((line) => line.toldAt !== undefined && lately(line)),
    calledOff: of('called off').filter(lately),
  }
}

const by =
  (dateOf: (line: JobLine) => string | undefined) =>
  (a: JobLine, b: JobLine): number =>
    (dateOf(a) ?? '').localeCompare(dateOf(b) ?? '') || a.id.localeCompare(b.id, 'en', { numeric: true })

async function linesOf(
  db: Db,
  jobs: readonly (Job & { readonly customerName?: string | undefined })[],
): Promise<JobLine[]> {
  const steps = await stepsOfJobs(
    db,
    jobs.map(({ id }) => id),
  )
  const names = await listPartNames(db)
  const stepped = await lastStepsOf(
    db,
    'job',
    jobs.map(({ id }) => id),
  )
  return jobs.map((job) => ({
    ...job,
    what: sayJobWhat(steps.get(job.id) ?? [], (id) => names.get(id) ?? id),
    steppedAt: stepped.get(job.id) ?? job.agreedAt,
    mayBeJoined: mayBeJoined(job, steps.get(job.id) ?? []),
  }))
}

/** Jobs of one machine in lines, the newest first. */
const jobLinesOfMachine = async (db: Db, tag: string): Promise<JobLine[]> =>
  linesOf(db, await namedJobsOfMachine(db, tag))

/** Jobs that came of one question, the newest first. */
export const jobLinesOfQuestion = async ({ db }: Store, questionId: string): Promise<JobLine[]> =>
  linesOf(db, await jobsOfQuestion(db, questionId))

/** What a machine's page says beyond what is in it. */
export type MachineBook = {
  readonly jobs: readonly JobLine[]
  readonly warranties: readonly Warranty[]
  readonly reports: readonly OwnerReport[]
  readonly formerOwners: readonly FormerOwner[]
}

export const viewMachineBook = async ({ db }: Store, tag: string): Promise<MachineBook> => ({
  jobs: await jobLinesOfMachine(db, tag),
  warranties: await warrantiesOf(db, tag),
  reports: await reportsOfMachine(db, tag),
  formerOwners: await formerOwnersOf(db, tag),
})

export type JobView = {
  readonly job: Job
  /** The kept answer, with the shop's particulars of that day. */
  readonly answer: Answer
  readonly option: Option
  /** Whose job it is. */
  readonly customer?: Customer | undefined
  readonly what: string
  readonly steps: readonly JobStepLine[]
  /** What the visit was for before more was agreed for it, the oldest first. */
  readonly before: readonly { readonly answerId: string; readonly agreedMinor: number }[]
  readonly putAside: readonly Reservation[]
  readonly changes: readonly StateChange[]
  /** The promise against the shop's runs since. */
  readonly kept: readonly Kept[]
  readonly runs: readonly Run[]
  readonly reports: readonly OwnerReport[]
  readonly outs: readonly PartOut[]
  readonly warranties: readonly Warranty[]
  /** What the price comes to with the parts that came out as they turned out. */
  readonly proposalMinor: number
  /** Why no run can be noted now, if so. */
  readonly runProblems: readonly Problem[]
  /** The version a title was last run in, by title id. */
  readonly lastVersions: Readonly<Record<string, string>>
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

/** One job with everything its page shows. */
export async function viewJob({ db }: Store, jobId: string): Promise<Result<JobView>> {
  const job = await loadJob(db, jobId)
  const loaded = job && (await loadMachine(db, job.machineTag))
  const agreed = job && (await agreedOf(db, job))
  if (job === undefined || loaded === undefined || agreed === undefined) return failed(noSuchJob(jobId))
  const { answer, option } = agreed
  const steps = (await stepsOfJobs(db, [jobId])).get(jobId) ?? []
  const outs = await partsOutOf(db, jobId)
  const all = await runsOfMachine(db, job.machineTag)
  const runs = runsSince(job, changesOf(loaded), all)
  const parts = await partsFor(db, answer, option, loaded, steps)
  const can = fittedNow(loaded, all)
  const { customer } = answer.inputs
  return ok({
    job,
    answer,
    option,
    ...(customer?.id === job.customerId && { customer }),
    what: sayJobWhat(steps, (id) => parts.find((p) => p.id === id)?.name ?? id),
    steps,
    before: (await agreedBefore(db, jobId)).map(({ answerId, agreedMinor }) => ({ answerId, agreedMinor })),
    putAside: (await reservationsOf(db, jobId)).filter((r) => isOpen(r) || r.usedAt !== undefined),
    changes: await listStateChanges(db, 'job', jobId),
    kept: job.promised.map((promised) => heldAgainst(promised, runs)),
    runs,
    reports: (await reportsOfMachine(db, job.machineTag)).filter((report) => report.jobId === jobId),
    outs,
    warranties: (await warrantiesOf(db, job.machineTag)).filter((w) => w.jobId === jobId),
    proposalMinor: settleProposal(job.agreedMinor, option.price, outs),
    runProblems: can.ok ? [] : can.problems,
    lastVersions: lastVersionsOf([...answer.inputs.runs, ...all]),
    parts,
    titles: await listTitles(db),
    settings: await listSettings(db),
  })
}

const changesOf = ({ history }: LoadedMachine): string[] =>
  history.flatMap(({ fittedAt, removedAt }) => [fittedAt, removedAt].filter((at) => at !== undefined))

/** Parts by id: those of the answer as they were, and what is in the machine now. */
async function partsFor(
  db: Db,
  answer: Answer,
  option: Option,
  loaded: LoadedMachine,
  steps: readonly JobStepLine[],
): Promise<Part[]> {
  const known = [
    ...answer.inputs.parts,
    ...option.change.add,
    ...partsOf(answer.inputs.machine.build),
    ...loaded.history.map(({ part }) => part),
  ]
  const shelfIds = answer.inputs.shelf.map(({ partId }) => partId)
  const onSteps = steps.filter(({ what }) => what === 'fit').map(({ ref }) => ref)
  const missing = [...shelfIds, ...onSteps].filter((id) => !known.some((part) => part.id === id))
  return [...known, ...(await loadParts(db, missing))]
}

function lastVersionsOf(runs: readonly Run[]): Record<string, string> {
  const oldestFirst = [...runs].sort((a, b) => a.at.localeCompare(b.at))
  return Object.fromEntries(oldestFirst.map(({ titleId, titleVersion }) => [titleId, titleVersion]))
}
