import type { Answer } from '../../core/answer.ts'
import { changedOf } from '../../core/asked/changed.ts'
import { partsOf } from '../../core/build.ts'
import { type Agreeable, agreeable, whyNot } from '../../core/job/agreed.ts'
import type { Job } from '../../core/job/job.ts'
import { isOver } from '../../core/job/states.ts'
import type { Minor } from '../../core/money.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadAnswer } from '../../store/answers.ts'
import { jobsOfMachine } from '../../store/jobs.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadParts } from '../../store/parts.ts'
import { loadQuestion, questionStanding } from '../../store/questions.ts'
import { sayJobWhat } from '../../words/job.ts'
import { answerQuestion } from '../answerQuestion.ts'
import { sumWith, visitToJoin } from './joinVisit.ts'
import { markOf, remember, remembered } from './shownAnswers.ts'

/** Which answer a yes is said to. Both absent: the one of now. */
export type WhichAnswer = {
  /** A kept one. */
  readonly answerId?: string | undefined
  /** The mark of the one that a page showed. */
  readonly seen?: string | undefined
}

/** What somebody is about to say yes to, before the form is filled in. */
export type ToAgree = {
  readonly answer: Answer
  readonly answerId?: string | undefined
  readonly chosen: Agreeable
  /** Goes along with the yes: what was shown is what is agreed. */
  readonly seen: string
  /** The open visit that it joins. */
  readonly joins?: Joins | undefined
  /** Why nobody can say yes to it any more; none where somebody can. */
  readonly closed: readonly Problem[]
}

export type Joins = {
  readonly job: Job
  /** What the visit is for until now. */
  readonly what: string
  /** What it comes to in all. */
  readonly sumMinor: Minor
}

/**
 * An option of an answer as a yes would agree it. The answer of now is remembered under its mark for the yes that
 * follows. Numbers that are not there within `waitMs` are a problem with code `busy`.
 */
export async function viewToAgree(
  store: Store,
  questionId: string,
  optionId: string,
  which: WhichAnswer,
  at: string,
  waitMs?: number,
): Promise<Result<ToAgree>> {
  const found = await answerToAgree(store, questionId, which, at, waitMs)
  if (!found.ok) return found
  const { answer, answerId } = found.value
  const chosen = agreeable(answer, optionId)
  if (chosen === undefined) return failed(noSuchOption(optionId))
  const seen = markOf(answer, chosen)
  if (answerId === undefined) remember(store, seen, answer)
  return ok({
    ...{ answer, answerId, chosen, seen },
    joins: await joinsOf(store.db, questionId, chosen),
    closed: [...optionProblems(chosen), ...(await machineProblems(store.db, answer))],
  })
}

/** The kept answer that was named, which must be one to this question; the one that was shown; or the one of now. */
export async function answerToAgree(
  store: Store,
  questionId: string,
  { answerId, seen }: WhichAnswer,
  at: string,
  waitMs: number | undefined,
): Promise<Result<{ readonly answer: Answer; readonly answerId?: string }>> {
  if (answerId !== undefined) {
    const kept = await loadAnswer(store.db, answerId)
    if (kept !== undefined && kept.questionId === questionId) return ok({ answer: kept.answer, answerId })
    const next = 'There is no such answer to this question. Open the question again and choose there.'
    return failed({ code: 'not found', field: 'answer', got: answerId, next })
  }
  const shown = seen === undefined ? undefined : remembered(store, questionId, seen)
  if (shown !== undefined && (await isStillAsked(store.db, shown))) return ok({ answer: shown })
  const now = await answerQuestion(store, questionId, at, waitMs)
  return now.ok ? ok({ answer: now.value }) : now
}

async function isStillAsked(db: Db, { inputs }: Answer): Promise<boolean> {
  const question = await loadQuestion(db, inputs.question.id)
  return question !== undefined && changedOf(inputs.question, question).length === 0
}

export const noSuchOption = (got: string): Problem => ({
  ...{ code: 'not found', field: 'optionId', got },
  next: 'This option is no longer among the ones for this question. Choose another.',
})

const WHY_NOT = {
  'a fact': 'One missing fact decides whether this fits. Find it out first; then it can be agreed.',
  'does not fit': 'This does not fit the machine, so it cannot be agreed. Choose another option.',
}

/** Why nobody can say yes to this option, whatever the machine is by now. */
export function optionProblems(chosen: Agreeable): Problem[] {
  const because = whyNot(chosen)
  return because === undefined ? [] : [{ code: 'conflict', field: 'optionId', next: WHY_NOT[because] }]
}

async function joinsOf(db: Db, questionId: string, { option }: Agreeable): Promise<Joins | undefined> {
  const visit = await visitToJoin(db, questionId)
  if (visit === undefined) return undefined
  const { job, steps } = visit
  const parts = await loadParts(
    db,
    steps.map(({ ref }) => ref),
  )
  const what = sayJobWhat(steps, (id) => parts.find((part) => part.id === id)?.name ?? id)
  return { job, what, sumMinor: await sumWith(db, job, option.price) }
}

/**
 * Why nobody can say yes to this answer any more, if so. One open job a machine at a time, on the machine that the
 * answer was about, while it is the asker's.
 */
export async function machineProblems(tx: Db, { inputs }: Answer): Promise<Problem[]> {
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
