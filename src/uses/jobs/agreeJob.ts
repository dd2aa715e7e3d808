import type { Answer } from '../../core/answer.ts'
import { partsOf } from '../../core/build.ts'
import {
  type Agreeable,
  agreeable,
  agreedPrice,
  promiseOf,
  unknownPart,
  whyNot,
  withOwnKey,
} from '../../core/job/agreed.ts'
import { checklist, type Step } from '../../core/job/checklist.ts'
import type { Fitter, Job } from '../../core/job/job.ts'
import { remindAfter } from '../../core/job/reminders.ts'
import { isOver } from '../../core/job/states.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadAnswer, saveAnswer } from '../../store/answers.ts'
import { insertJob, jobsOfMachine, nextJobId, updateJob } from '../../store/jobs.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { listParts, upsertParts } from '../../store/parts.ts'
import { questionStanding } from '../../store/questions.ts'
import { addStateChange } from '../../store/stateChanges.ts'
import { sayJobWhat } from '../../words/job.ts'
import { freeId } from '../addMachine.ts'
import { answerQuestion } from '../answerQuestion.ts'
import { answeredByYes } from '../questionState.ts'
import { bookProblems, whenText } from './bookJob.ts'
import { joinVisit, type Visit, visitToJoin } from './joinVisit.ts'
import { allOrNothing, type JobId, takeStep } from './onJob.ts'
import { putAside } from './stock.ts'

/** What was said along with the yes. */
export type Agreement = {
  readonly fittedBy: Fitter
  /** The kept answer whose words and price the owner said yes to; absent: as things stand now. */
  readonly answerId?: string | undefined
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
  const found = await answerFor(store, questionId, agreement.answerId, at, waitMs)
  if (!found.ok) return found
  const { answer } = found.value
  const chosen = agreeable(answer, optionId)
  const problem = optionProblem(chosen, optionId)
  if (chosen === undefined || problem !== undefined) return failed(...(problem ? [problem] : []))
  return allOrNothing(store, async (tx) => {
    const problems = [
      ...(await machineProblems(tx, answer)),
      ...(agreement.bookedFor === undefined ? [] : await bookProblems(tx, agreement.bookedFor, at)),
    ]
    if (problems.length > 0) return failed(...problems)
    const answerId = found.value.answerId ?? (await saveAnswer(tx, answer))
    const visit = await visitToJoin(tx, questionId)
    if (visit !== undefined) return joined(tx, visit, { answer, answerId, chosen, agreement }, at)
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
  })
}

type Agreed = {
  readonly answer: Answer
  readonly answerId: string
  readonly chosen: Agreeable
  readonly agreement: Agreement
}

/** The visit is on the bench already, and nothing was promised in it yet: what is agreed now is done in the same one. */
async function joined(tx: Db, visit: Visit, agreed: Agreed, at: string): Promise<Result<JobId>> {
  const { answer, answerId, chosen, agreement } = agreed
  const { id, fittedBy, state, depositMinor } = visit.job
  const problems: Problem[] = []
  if (agreement.bookedFor !== undefined)
    problems.push({
      ...{ code: 'not allowed', field: 'bookedDay' },
      next: `It joins the visit ${id}, which is on the bench now. Leave the date empty.`,
    })
  if (agreement.fittedBy !== fittedBy)
    problems.push({
      ...{ code: 'not allowed', field: 'fittedBy', got: agreement.fittedBy },
      next: `It joins the visit ${id}, where the ${fittedBy} does the work. Choose that, or finish the visit first.`,
    })
  const before = await loadAnswer(tx, visit.job.answerId)
  if (before === undefined) throw new Error('a job without its answer')
  if (problems.length > 0) return failed(...problems)
  const job = { ...(await jobOf(tx, answer, answerId, chosen, agreement, at)), id }
  const steps = await stepsOf(tx, answer, chosen, job)
  await joinVisit(tx, visit, { job, steps, price: chosen.option.price }, before.answer, at)
  const lacking = await putAside(tx, id, neededFrom(chosen), at)
  if (lacking.length > 0) return failed(...lacking)
  const more = agreement.depositMinor
  if (more !== undefined) await updateJob(tx, id, { depositMinor: (depositMinor ?? 0) + more, depositAt: at })
  const parts = new Map(answer.inputs.parts.map((part) => [part.id, part.name]))
  const what = sayJobWhat(steps, (partId) => parts.get(partId) ?? partId)
  const because = [`agreed for the same visit: ${what}`, agreement.note].filter(Boolean).join('; ')
  await addStateChange(tx, { about: 'job', ref: id, at, from: state, to: state, because })
  return ok({ jobId: id })
}

/** The kept answer that was named, which must be one to this question, or the answer as things stand now. */
async function answerFor(
  store: Store,
  questionId: string,
  answerId: string | undefined,
  at: string,
  waitMs: number | undefined,
): Promise<Result<{ readonly answer: Answer; readonly answerId?: string }>> {
  if (answerId === undefined) {
    const now = await answerQuestion(store, questionId, at, waitMs)
    return now.ok ? ok({ answer: now.value }) : now
  }
  const kept = await loadAnswer(store.db, answerId)
  if (kept === undefined || kept.questionId !== questionId) {
    const next = 'There is no such answer to this question. Open the question again and choose there.'
    return failed({ code: 'not found', field: 'answer', got: answerId, next })
  }
  return ok({ answer: kept.answer, answerId })
}

const WHY_NOT = {
  'a fact': 'One missing fact decides whether this fits. Find it out first; then it can be agreed.',
  'does not fit': 'This does not fit the machine, so it cannot be agreed. Choose another option.',
}

function optionProblem(chosen: Agreeable | undefined, got: string): Problem | undefined {
  if (chosen === undefined) {
    const next = 'This option is no longer among the ones for this question. Choose another.'
    return { code: 'not found', field: 'optionId', got, next }
  }
  const because = whyNot(chosen)
  return because && { code: 'conflict', field: 'optionId', next: WHY_NOT[because] }
}

/** Why nobody can say yes to this answer any more, if so: the page says it before a form is filled in. */
export const yesProblems = (store: Store, answer: Answer): Promise<Problem[]> =>
  machineProblems(store.db, answer)

/** One open job a machine at a time, on the machine that the answer was about, while it is the asker's. */
async function machineProblems(tx: Db, { inputs }: Answer): Promise<Problem[]> {
  const { tag, build } = inputs.machine
  if ((await questionStanding(tx, inputs.question.id))?.soldOnAt !== undefined) {
    const next = `${tag} was sold on since this was asked. Take down what its present owner asks, and answer that.`
    return [{ code: 'conflict', field: 'question', next }]
  }
  const open = (await jobsOfMachine(tx, tag)).find(({ state }) => !isOver(state))
  const visit = open && (await visitToJoin(tx, inputs.question.id))
  if (open !== undefined && visit?.job.id !== open.id) {
    const next = `${tag} has an open job already, ${open.id}, and its promise counts on the parts of today. Finish that job or call it off first.`
    return [{ code: 'conflict', field: 'job', next }]
  }
  const now = await loadMachine(tx, tag)
  const idsOf = (parts: readonly { readonly id: string }[]) => parts.map(({ id }) => id).sort()
  if (now !== undefined && same(idsOf(partsOf(now.machine.build)), idsOf(partsOf(build)))) return []
  const next = `Other parts are in ${tag} than this answer counted on. Answer the question as things are now.`
  return [{ code: 'conflict', field: 'machine', next }]
}

const same = (a: readonly string[], b: readonly string[]): boolean => a.join('\n') === b.join('\n')

/** Shelf items by how many of each. What the owner brings along stands on no shelf and has no line in the price. */
function neededFrom({ option }: Agreeable) {
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
