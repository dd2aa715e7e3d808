import type { Answer } from '../../core/answer.ts'
import { type Change, partsOf, partsOut } from '../../core/build.ts'
import { agreeable, unknownPart, withOwnKey } from '../../core/job/agreed.ts'
import { creditsFor, isOpen, type Job, type JobStepLine, TICKED_BY_HAND } from '../../core/job/job.ts'
import type { Warranty } from '../../core/job/warranty.ts'
import type { Claim } from '../../core/limits/limit.ts'
import { claimsAfter } from '../../core/limits/resolve.ts'
import type { Machine } from '../../core/machine.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { monthsAfter } from '../../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadAnswer } from '../../store/answers.ts'
import { addFitted, removeFitted } from '../../store/fitted.ts'
import { insertPartsOut, setStepsDone, stepsOfJobs, updateJob } from '../../store/jobs.ts'
import { loadMachine, replaceClaims } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { endReservations, reservationsOf } from '../../store/reservations.ts'
import { listShelfItems, takeFromShelf } from '../../store/shelf.ts'
import { addStateChange } from '../../store/stateChanges.ts'
import { insertWarranties } from '../../store/warranties.ts'
import { shopOrNeutral } from '../shop.ts'
import { agreedBefore } from './joinVisit.ts'
import { type JobId, onJob } from './onJob.ts'
import { tickTests } from './partOut.ts'
import { cannotStep } from './problems.ts'

/** What only the bench knows once it is all in. */
export type FittingNotes = {
  /** Firmware as the board shows it now; asked for where firmware was updated. */
  readonly firmware?: string | undefined
  /**
   * What was said of each step that has no tick: done, or not done and why. Absent: whoever asks says that all are done.
   * Fields of its problems: `step.` and the step's place, `why.` and the same.
   */
  readonly said?: ReadonlyMap<number, StepSaid> | undefined
}

export type StepSaid =
  | { readonly done: true }
  | { readonly done: false; readonly because?: string | undefined }

/**
 * The agreed parts are in and the works done. From now on the machine is another one: parts that came out and went in
 * are dated now, claims that lapse with them are gone, what the works leave is claimed, what was put aside leaves the
 * shelf for good, and warranties of the new parts begin.
 */
export const finishFitting = (
  store: Store,
  jobId: string,
  notes: FittingNotes,
  at: string,
): Promise<Result<JobId>> =>
  onJob(store, jobId, async (tx, job) => {
    const agreed = await agreedOf(tx, job)
    const machine = (await loadMachine(tx, job.machineTag))?.machine
    if (agreed === undefined || machine === undefined) throw new Error('a job without its answer or machine')
    const { answer, option } = agreed
    const steps = (await stepsOfJobs(tx, [job.id])).get(job.id) ?? []
    const left = leftUndone(steps, notes)
    const before = (await agreedBefore(tx, job.id)).flatMap((earlier) => earlier.change.work)
    const own = withOwnKey(option.change, keyOfUnknown(option.change, steps))
    // What was not done leaves nothing behind; what was agreed for the visit before does.
    const work = [...new Set([...before, ...own.work])].filter(
      (id) => !left.some(({ step }) => step.ref === id),
    )
    const change = { ...own, work }
    const problems = [
      ...stepProblems(steps, notes),
      ...(await fittingProblems(tx, job, machine, answer, notes)),
    ]
    if (problems.length > 0) return failed(...problems)

    const out = partsOut(machine.build, change)
    for (const part of out) await removeFitted(tx, machine.tag, part.id, at)
    await addFitted(
      tx,
      change.add.map((part) => ({ machineTag: machine.tag, partId: part.id, fittedAt: at })),
    )
    await replaceClaims(tx, machine.tag, claimsNow(machine, change, notes, at), at)
    await useWhatWasPutAside(tx, job, at)
    const outIds = out.map(({ id }) => id)
    const credits = creditsFor(option.price, outIds)
    await insertPartsOut(
      tx,
      job.id,
      outIds.map((id, i) => outOf(id, job, credits[i] ?? 0, at)),
    )
    const byHand = openByHand(steps).filter(
      ({ position }) => !left.some(({ step }) => step.position === position),
    )
    await setStepsDone(
      tx,
      job.id,
      byHand.map((s) => s.position),
      at,
    )
    await tickTests(tx, job.id)
    await updateJob(tx, job.id, { fittedAt: at, remindAt: null })
    const { state } = job
    await addStateChange(tx, {
      ...{ about: 'job', ref: job.id, at, from: state, to: state, because: allIn(left) },
    })
    return ok({ jobId: job.id })
  })

/** Steps without a tick that only a hand ticks. */
export const openByHand = (steps: readonly JobStepLine[]): readonly JobStepLine[] =>
  steps.filter((s) => TICKED_BY_HAND.has(s.what) && s.doneAt === undefined)

type Left = { readonly step: JobStepLine; readonly because: string }

const leftUndone = (steps: readonly JobStepLine[], { said }: FittingNotes): readonly Left[] =>
  openByHand(steps).flatMap((step) => {
    const answer = said?.get(step.position)
    return answer === undefined || answer.done ? [] : [{ step, because: answer.because ?? '' }]
  })

const allIn = (left: readonly Left[]): string =>
  left.length === 0
    ? 'it is all in'
    : `it is all in; not done: ${left.map(({ step, because }) => `${step.ref || step.what} (${because})`).join(', ')}`

/** Of every step without a tick somebody says whether it is done; nobody's silence counts as a yes. */
function stepProblems(steps: readonly JobStepLine[], { said }: FittingNotes): Problem[] {
  if (said === undefined) return []
  return openByHand(steps).flatMap(({ position, what }): Problem[] => {
    const answer = said.get(position)
    const at = (kind: 'step' | 'why') => `${kind}.${position}`
    if (answer === undefined)
      return [{ code: 'missing', field: at('step'), next: 'Say whether this is done; it has no tick.' }]
    if (answer.done) return []
    if (what === 'fit' || what === 'take out') {
      const next =
        'Then it is not all in. Do it first, put the job off, or call it off and agree another change.'
      return [{ code: 'conflict', field: at('step'), next }]
    }
    return answer.because === undefined
      ? [{ code: 'missing', field: at('why'), next: 'Say why it was not done; the history keeps it.' }]
      : []
  })
}

/** The kept answer of a job and the option that was agreed. */
export async function agreedOf(db: Db, job: Pick<Job, 'answerId' | 'optionId'>) {
  const answer = (await loadAnswer(db, job.answerId))?.answer
  const chosen = answer && agreeable(answer, job.optionId)
  return answer && chosen && { answer, ...chosen }
}

async function fittingProblems(
  tx: Db,
  job: Job,
  machine: Machine,
  answer: Answer,
  { said }: FittingNotes,
): Promise<Problem[]> {
  if (job.state !== 'on the bench') return [cannotStep(job, 'fitted')]
  if (job.fittedAt !== undefined)
    return [{ code: 'conflict', field: 'job', next: 'The parts are in already; this was said before.' }]
  const steps = (await stepsOfJobs(tx, [job.id])).get(job.id) ?? []
  const undone = steps.filter((s) => s.what === 'work' && s.doneAt === undefined && said === undefined)
  if (undone.length > 0) {
    const works = undone.map(({ ref }) => ref).join(', ')
    const next = `Tick the work that is done first: ${works}. The machine is written down as it is left by it.`
    return [{ code: 'missing', field: 'steps', next }]
  }
  const now = partsOf(machine.build).map(({ id }) => id)
  const then = partsOf(answer.inputs.machine.build).map(({ id }) => id)
  if (now.sort().join('\n') === then.sort().join('\n')) return []
  const next = `Other parts are in ${machine.tag} now than when this was agreed. Put the machine's page right, or call the job off and answer again.`
  return [{ code: 'conflict', field: 'machine', next }]
}

/** The key that the checklist gave a part which only the owner's words name. */
function keyOfUnknown(change: Change, steps: readonly JobStepLine[]): string | undefined {
  if (unknownPart(change) === undefined) return undefined
  const known = new Set(change.add.map(({ id }) => id))
  return steps.find(({ what, ref }) => what === 'fit' && !known.has(ref))?.ref
}

/**
 * What is claimed about the machine from now on. New firmware ends what was said of the old one: the version is
 * what the bench read, or not known.
 */
function claimsNow(machine: Machine, change: Change, { firmware }: FittingNotes, at: string): Claim[] {
  const left = claimsAfter(machine, change).map((claim) =>
    claim.at === undefined && !machine.claims.includes(claim) ? { ...claim, at } : claim,
  )
  const updated = change.work.includes('firmware update')
  const kept = updated || firmware !== undefined ? left.filter(({ key }) => key !== 'firmware') : left
  return firmware === undefined
    ? kept
    : [...kept, { key: 'firmware', value: firmware, source: 'read', at, note: 'read on the bench' }]
}

/** Reservations become use; each item with a warranty starts one for every part of it that went in. */
async function useWhatWasPutAside(tx: Db, job: Job, at: string): Promise<void> {
  const { timeZone } = await shopOrNeutral(tx)
  const items = new Map((await listShelfItems(tx)).map((item) => [item.id, item]))
  for (const { itemId, quantity } of (await reservationsOf(tx, job.id)).filter(isOpen)) {
    await takeFromShelf(tx, itemId, quantity)
    const item = items.get(itemId)
    if (item === undefined) continue
    const warranty = warrantyOf(item, job, timeZone, at)
    await insertWarranties(
      tx,
      warranty.flatMap((w) => Array.from({ length: quantity }, () => w)),
    )
  }
  await endReservations(tx, job.id, { usedAt: at })
}

function warrantyOf(item: ShelfItem, { id, machineTag }: Job, timeZone: string, at: string): Warranty[] {
  const { partId, warrantyMonths, warrantyEndsWith } = item
  if (warrantyMonths === undefined || !(warrantyMonths > 0)) return []
  const until = monthsAfter(at, warrantyMonths, timeZone)
  const dates = { from: at, until }
  return [{ machineTag, partId, jobId: id, givenBy: 'shop', ...dates, endsWith: warrantyEndsWith }]
}

/** What an owner took out at home and is not paid for stays at home. */
const outOf = (partId: string, { fittedBy }: Job, creditMinor: number, at: string) =>
  fittedBy === 'owner' && creditMinor === 0
    ? ({ partId, outcome: 'given back', outcomeAt: at, creditMinor } as const)
    : ({ partId, outcome: 'to test', creditMinor } as const)
