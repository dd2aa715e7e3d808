import type { Answer } from '../../core/answer.ts'
import {
  type Agreeable,
  agreeable,
  agreedPrice,
  promiseOf,
  unknownPart,
  withOwnKey,
} from '../../core/job/agreed.ts'
import { checklist, type Step } from '../../core/job/checklist.ts'
import type { Fitter, Job } from '../../core/job/job.ts'
import { remindAfter } from '../../core/job/reminders.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { saveAnswer } from '../../store/answers.ts'
import { insertJob, nextJobId, updateJob } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { listParts, upsertParts } from '../../store/parts.ts'
import { addStateChange } from '../../store/stateChanges.ts'
import { sayJobWhat, sayJoined } from '../../words/job.ts'
import { freeId } from '../addMachine.ts'
import { answeredByYes } from '../questionState.ts'
import { bookProblems, whenText } from './bookJob.ts'
import { joinVisit, type Visit, visitToJoin } from './joinVisit.ts'
import { allOrNothing, type JobId, takeStep } from './onJob.ts'
import { markOf } from './shownAnswers.ts'
import { putAside } from './stock.ts'
import { answerToAgree, machineProblems, noSuchOption, optionProblems } from './toAgree.ts'

/** What was said along with the yes. */
export type Agreement = {
  readonly fittedBy: Fitter
  /** The kept answer whose words and price the owner said yes to; absent: what was seen, or as things stand now. */
  readonly answerId?: string | undefined
  /** The mark of what a page showed: nothing is agreed at another price or promise. */
  readonly seen?: string | undefined
  /** ISO 8601 UTC. */
  readonly bookedFor?: string | undefined
  readonly depositMinor?: number | undefined
  readonly note?: string | undefined
}

/**
 * The owner said yes to an option: the answer is kept, its promise and price with it, the parts are put aside and
 * the checklist is made. With a date it is booked at once. `at` is now. Numbers that are not there within `waitMs` are a
 * problem with code `busy`, and nothing is kept.
 */
export async function agreeJob(
  store: Store,
  questionId: string,
  optionId: string,
  agreement: Agreement,
  at: string,
  waitMs?: number,
): Promise<Result<JobId>> {
  const found = await answerToAgree(store, questionId, agreement, at, waitMs)
  if (!found.ok) return found
  const { answer } = found.value
  const chosen = agreeable(answer, optionId)
  if (chosen === undefined) return failed(noSuchOption(optionId))
  const refused = optionProblems(chosen)
  if (refused.length > 0) return failed(...refused)
  if (agreement.seen !== undefined && agreement.seen !== markOf(answer, chosen)) return failed(SHOWN_BEFORE)
  return allOrNothing(store, async (tx) => {
    const answerId = found.value.answerId ?? (await saveAnswer(tx, answer))
    return agreeIn(tx, { answer, answerId, chosen, agreement }, at)
  })
}

/** As `agreeJob`, within a transaction that is given up where this ends in a problem. */
export async function agreeIn(tx: Db, agreed: Agreed, at: string): Promise<Result<JobId>> {
  const { answer, answerId, chosen, agreement } = agreed
  const questionId = answer.inputs.question.id
  const problems = [
    ...(await machineProblems(tx, answer)),
    ...(agreement.bookedFor === undefined ? [] : await bookProblems(tx, agreement.bookedFor, at)),
  ]
  if (problems.length > 0) return failed(...problems)
  const visit = await visitToJoin(tx, questionId)
  if (visit !== undefined) return joined(tx, visit, agreed, at)
  const job = await jobOf(tx, answer, answerId, chosen, agreement, at)
  await insertJob(tx, job, await stepsOf(tx, answer, chosen, job))
  const lacking = await putAside(tx, job.id, neededFrom(chosen), at)
  if (lacking.length > 0) return failed(...lacking)
  const answered = await answeredByYes(tx, questionId, at)
  if (!answered.ok) return answered
  await addStateChange(tx, {
    ...{ about: 'job', ref: job.id, at, from: 'answered', to: job.state, because: agreement.note },
  })
  if (agreement.bookedFor === undefined) return ok({ jobId: job.id })
  const because = await whenText(tx, agreement.bookedFor)
  return takeStep(tx, job, 'book', at, { change: { bookedFor: agreement.bookedFor }, because })
}

export type Agreed = {
  readonly answer: Answer
  readonly answerId: string
  readonly chosen: Agreeable
  readonly agreement: Agreement
}

/** Nothing was promised in the visit yet: what is agreed now is done in the same one, on its day or on the one given now. */
async function joined(tx: Db, visit: Visit, agreed: Agreed, at: string): Promise<Result<JobId>> {
  const { answer, answerId, chosen, agreement } = agreed
  const { id, fittedBy, state, depositMinor } = visit.job
  const { bookedFor } = agreement
  const problems: Problem[] = []
  if (bookedFor !== undefined && state === 'on the bench')
    problems.push({
      ...{ code: 'not allowed', field: 'bookedDay' },
      next: `It joins the visit ${id}, which is on the bench now. Leave the date empty.`,
    })
  if (agreement.fittedBy !== fittedBy)
    problems.push({
      ...{ code: 'not allowed', field: 'fittedBy', got: agreement.fittedBy },
      next: `It joins the visit ${id}, where the ${fittedBy} does the work. Choose that, or finish the visit first.`,
    })
  if (problems.length > 0) return failed(...problems)
  const job = { ...(await jobOf(tx, answer, answerId, chosen, agreement, at)), id }
  const steps = await stepsOf(tx, answer, chosen, job)
  await joinVisit(tx, visit, { job, steps, price: chosen.option.price }, at)
  const lacking = await putAside(tx, id, neededFrom(chosen), at)
  if (lacking.length > 0) return failed(...lacking)
  const more = agreement.depositMinor
  if (more !== undefined) await updateJob(tx, id, { depositMinor: (depositMinor ?? 0) + more, depositAt: at })
  const parts = new Map(answer.inputs.parts.map((part) => [part.id, part.name]))
  const what = sayJobWhat(steps, (partId) => parts.get(partId) ?? partId)
  const because = [sayJoined(what), agreement.note].filter(Boolean).join('; ')
  await addStateChange(tx, { about: 'job', ref: id, at, from: state, to: state, because })
  if (bookedFor === undefined) return ok({ jobId: id })
  const change = { bookedFor }
  return takeStep(tx, visit.job, 'book', at, { change, because: await whenText(tx, bookedFor) })
}

const SHOWN_BEFORE: Problem = {
  ...{ code: 'conflict', field: 'optionId' },
  next: 'Price or promise are not the ones you saw: something changed meanwhile. Look at them below, then agree.',
}

/** Shelf items by how many of each. What the owner brings along stands on no shelf and has no line in the price. */
export function neededFrom({ option }: Agreeable) {
  const needed = new Map<string, number>()
  for (const { what, shelfItemId: id } of option.price.lines)
    if (what === 'part' && id !== undefined) needed.set(id, (needed.get(id) ?? 0) + 1)
  return [...needed].map(([itemId, quantity]) => ({ itemId, quantity }))
}

/** The checklist. A part that only the owner's words name becomes one the shop knows, under a key of its own. */
async function stepsOf(
  tx: Db,
  { inputs }: Answer,
  { option }: Agreeable,
  { promised }: Job,
): Promise<Step[]> {
  const { build } = inputs.machine
  const unknown = unknownPart(option.change)
  if (unknown === undefined) return checklist(build, option.change, option.findings, promised)
  const key = freeId(unknown.kind, await listParts(tx))
  await upsertParts(tx, [{ ...unknown, id: key }])
  const findings = option.findings.map((f) => (f.partId === unknown.id ? { ...f, partId: key } : f))
  return checklist(build, withOwnKey(option.change, key), findings, promised)
}

async function jobOf(
  tx: Db,
  answer: Answer,
  answerId: string,
  chosen: Agreeable,
  { fittedBy, depositMinor, note }: Agreement,
  at: string,
): Promise<Job> {
  const { question, customer } = answer.inputs
  return {
    id: await nextJobId(tx),
    questionId: question.id,
    answerId,
    optionId: chosen.option.id,
    machineTag: question.machineTag,
    customerId: customer?.id,
    fittedBy,
    state: 'agreed',
    agreedAt: at,
    promised: promiseOf(chosen, answer),
    agreedMinor: agreedPrice(chosen.option.price, fittedBy),
    depositMinor,
    depositAt: depositMinor === undefined ? undefined : at,
    remindAt: remindAfter('agree', at),
    note,
  }
}
