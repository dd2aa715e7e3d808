import type { Change } from '../../core/build.ts'
import { agreeable, agreedPrice } from '../../core/job/agreed.ts'
import type { Step } from '../../core/job/checklist.ts'
import { type Fitter, type Job, type JobStepLine, mayBeJoined } from '../../core/job/job.ts'
import type { Minor } from '../../core/money.ts'
import type { NetPrice, PriceLine } from '../../core/ranking/option.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import { agreementSchema } from '../../input/stored.ts'
import { loadAnswer } from '../../store/answers.ts'
import { addEdit, listEdits } from '../../store/edits.ts'
import { jobsOfQuestion, replaceAgreement, stepsOfJobs } from '../../store/jobs.ts'
import type { Db } from '../../store/open.ts'

/** An open visit that a further change of the same question may join, with its checklist. */
export type Visit = { readonly job: Job; readonly steps: readonly JobStepLine[] }

export async function visitToJoin(db: Db, questionId: string): Promise<Visit | undefined> {
  for (const job of await jobsOfQuestion(db, questionId)) {
    const steps = (await stepsOfJobs(db, [job.id])).get(job.id) ?? []
    if (mayBeJoined(job, steps)) return { job, steps }
  }
  return undefined
}

/** What was agreed for a job before more joined it, the oldest first, each with its change and price. */
export async function agreedBefore(
  db: Db,
  jobId: string,
): Promise<
  {
    readonly answerId: string
    readonly agreedMinor: Minor
    readonly change: Change
    readonly price: NetPrice
  }[]
> {
  const kept = (await listEdits(db, 'job', jobId)).map(({ was }) => agreementSchema.parse(was))
  const found = await Promise.all(
    kept.map(async ({ answerId, optionId, agreedMinor }) => {
      const saved = await loadAnswer(db, answerId)
      const option = saved && agreeable(saved.answer, optionId)?.option
      return option && { answerId, agreedMinor, change: option.change, price: option.price }
    }),
  )
  return found.filter((one) => one !== undefined)
}

/**
 * One checklist for both: what was to be done stays with its ticks, what is named in both is done once, and the price is
 * settled and the owner told at the end.
 */
export function joinedSteps(
  before: readonly JobStepLine[],
  added: readonly Step[],
): (Step & { doneAt?: string | undefined })[] {
  const isClosing = ({ what }: Step) => what === 'settle' || what === 'tell the owner'
  const there = (step: Step) =>
    before.some(
      ({ what, ref, doneAt }) =>
        what === step.what &&
        ref === step.ref &&
        (what === 'work' || (what === 'opening' && doneAt === undefined)),
    )
  const first = before.filter((step) => !isClosing(step)).map(({ position: _, ...step }) => step)
  return [...first, ...added.filter((step) => !there(step))]
}

/** Charged once a visit, however many changes ask for it. */
const ONCE: ReadonlySet<PriceLine['what']> = new Set(['opening', 'fee', 'work'])

/**
 * What is paid for a visit with one more change in it: opening, fee and a work that were charged already are not charged
 * again, with the tax on them.
 *
 * @param before what was agreed until now, with every price in it
 */
export function joinedMinor(
  before: { readonly agreedMinor: Minor; readonly prices: readonly Pick<NetPrice, 'lines'>[] },
  added: NetPrice,
  fittedBy: Fitter,
): Minor {
  const key = ({ what, ref }: PriceLine) => `${what} ${ref}`
  const charged = new Set(before.prices.flatMap(({ lines }) => lines.map(key)))
  const again = added.lines.filter((line) => ONCE.has(line.what) && charged.has(key(line)))
  const twice = { ...added, lines: again, netMinor: dueOfLines(added, again) }
  return before.agreedMinor + agreedPrice(added, fittedBy) - agreedPrice(twice, fittedBy)
}

/** The same of a visit as it is kept. */
export async function sumWith(db: Db, job: Job, added: NetPrice): Promise<Minor> {
  const earlier = await agreedBefore(db, job.id)
  const last = (await loadAnswer(db, job.answerId))?.answer
  if (last === undefined) throw new Error('a job without its answer')
  const price = agreeable(last, job.optionId)?.option.price
  const prices = [...earlier.map((one) => one.price), ...(price === undefined ? [] : [price])]
  return joinedMinor({ agreedMinor: job.agreedMinor, prices }, added, job.fittedBy)
}

/** Writes the joined agreement; what the visit was for until now is kept. */
export async function joinVisit(
  tx: Db,
  { job, steps }: Visit,
  added: { readonly job: Job; readonly steps: readonly Step[]; readonly price: NetPrice },
  at: string,
): Promise<void> {
  const { answerId, optionId, promised, agreedMinor } = job
  await addEdit(tx, { about: 'job', ref: job.id, at, was: { answerId, optionId, promised, agreedMinor } })
  const { job: next, price } = added
  const sum = await sumWith(tx, job, price)
  await replaceAgreement(
    tx,
    job.id,
    { answerId: next.answerId, optionId: next.optionId, promised: next.promised, agreedMinor: sum },
    joinedSteps(steps, added.steps),
  )
}
