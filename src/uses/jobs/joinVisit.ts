import type { Answer } from '../../core/answer.ts'
import type { Change } from '../../core/build.ts'
import { agreeable } from '../../core/job/agreed.ts'
import type { Step } from '../../core/job/checklist.ts'
import { type Job, type JobStepLine, mayBeJoined } from '../../core/job/job.ts'
import { type Minor, sumMinor } from '../../core/money.ts'
import type { NetPrice } from '../../core/ranking/option.ts'
import { agreementSchema } from '../../input/stored.ts'
import { loadAnswer } from '../../store/answers.ts'
import { addEdit, listEdits } from '../../store/edits.ts'
import { jobsOfQuestion, replaceAgreement, stepsOfJobs } from '../../store/jobs.ts'
import type { Db } from '../../store/open.ts'

/** A visit on the bench that a further change of the same question may join, with its checklist. */
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

/** What is paid for both: a work in both prices is paid once. */
export function joinedMinor(
  before: { readonly agreedMinor: Minor; readonly price: NetPrice },
  added: { readonly agreedMinor: Minor; readonly price: NetPrice },
): Minor {
  const paid = new Set(before.price.lines.flatMap(({ what, ref }) => (what === 'work' ? [ref] : [])))
  const twice = added.price.lines.filter(({ what, ref }) => what === 'work' && paid.has(ref))
  return before.agreedMinor + added.agreedMinor - sumMinor(twice.map(({ amountMinor }) => amountMinor))
}

/** Writes the joined agreement; what the visit was for until now is kept. */
export async function joinVisit(
  tx: Db,
  { job, steps }: Visit,
  added: { readonly job: Job; readonly steps: readonly Step[]; readonly price: NetPrice },
  answerBefore: Answer,
  at: string,
): Promise<void> {
  const { answerId, optionId, promised, agreedMinor } = job
  await addEdit(tx, { about: 'job', ref: job.id, at, was: { answerId, optionId, promised, agreedMinor } })
  const price = agreeable(answerBefore, optionId)?.option.price
  const { job: next } = added
  const sum =
    price === undefined
      ? agreedMinor + next.agreedMinor
      : joinedMinor({ agreedMinor, price }, { agreedMinor: next.agreedMinor, price: added.price })
  await replaceAgreement(
    tx,
    job.id,
    { answerId: next.answerId, optionId: next.optionId, promised: next.promised, agreedMinor: sum },
    joinedSteps(steps, added.steps),
  )
}
