import { createHash } from 'node:crypto'
import { askedText, type Changeable, changedOf } from '../core/asked/changed.ts'
import { isOver } from '../core/job/states.ts'
import type { Question } from '../core/question.ts'
import { questionSchema } from '../input/stored.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { addEdit, listEdits } from '../store/edits.ts'
import { jobsOfQuestion } from '../store/jobs.ts'
import type { Db, Store } from '../store/open.ts'
import { loadQuestion, questionStanding, updateQuestion } from '../store/questions.ts'
import { visitToJoin } from './jobs/joinVisit.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { type QuestionId, stepQuestion } from './questionState.ts'
import { neededFor, unknownTitles } from './takeQuestion.ts'

/** What a question asks from now on; the machine and the day it was asked stay. */
export type QuestionChange = Omit<Question, 'id' | 'machineTag' | 'askedAt'>

/** One change of a question: when, what of it, and the whole of it until then. */
export type QuestionEdit = {
  readonly id: string
  readonly at: string
  readonly changed: readonly Changeable[]
  readonly was: Question
}

/** Stands in the form: what the question asked when the form was drawn. */
export const questionMark = (question: Question): string =>
  createHash('sha256').update(askedText(question)).digest('hex').slice(0, 16)

/**
 * Changes what a question asks, until it is agreed. What it asked before is kept, and so is every answer that was kept:
 * it stays as it was told. An answered question waits for its new answer. Nothing is written where nothing differs.
 *
 * @param seen the mark of the question that was looked at; another one there now is a problem with code `conflict`
 */
export const changeQuestion = (
  store: Store,
  id: string,
  change: QuestionChange,
  at: string,
  seen?: string | undefined,
): Promise<Result<QuestionId>> =>
  allOrNothing(store, async (tx) => {
    const before = await loadQuestion(tx, id)
    if (before === undefined) return failed(noQuestion(id))
    const closed = await whyFixed(tx, id)
    if (closed !== undefined) return failed(closed)
    if (seen !== undefined && seen !== questionMark(before)) return failed(CHANGED_MEANWHILE)
    const after: Question = { ...change, id, machineTag: before.machineTag, askedAt: before.askedAt }
    const problems = [...neededFor(after), ...(await unknownTitles(tx, after))]
    if (problems.length > 0) return failed(...problems)
    const isChanged = await keepChange(tx, before, after, at)
    // What was told answers another question now, so this one waits again.
    if (isChanged && (await questionStanding(tx, id))?.state === 'answered') {
      const stepped = await stepQuestion(tx, id, 'changed', at, 'the question was changed')
      if (!stepped.ok) return stepped
    }
    return ok({ id })
  })

/** Writes what a question asks from now on and keeps what it asked before; false where nothing differs. */
export async function keepChange(tx: Db, before: Question, after: Question, at: string): Promise<boolean> {
  if (changedOf(before, after).length === 0) return false
  await addEdit(tx, { about: 'question', ref: before.id, at, was: before })
  await updateQuestion(tx, after)
  return true
}

/** Why a question stays what it is: it is agreed, called off, or its asker has the machine no more. */
export async function whyFixed(db: Db, id: string): Promise<Problem | undefined> {
  const fixed = (next: string): Problem => ({ code: 'conflict', field: 'question', got: id, next })
  const visit = await visitToJoin(db, id)
  const job = (await jobsOfQuestion(db, id)).find(
    (one) => one.id !== visit?.job.id && (!isOver(one.state) || one.state === 'done'),
  )
  if (job !== undefined)
    return fixed(
      `It was agreed as ${job.id}, and stays what the owner said yes to. ${
        isOver(job.state)
          ? 'Take down what is asked now as a question of its own.'
          : 'Call that job off first, or take down another question.'
      }`,
    )
  const standing = await questionStanding(db, id)
  if (standing?.soldOnAt !== undefined)
    return fixed(
      'The machine was sold on since this was asked, so it stays with who asked. Take down what the present owner asks.',
    )
  if (standing?.state === 'called off') return fixed('It was called off. Take it up again, then change it.')
  return undefined
}

/** Every change of a question, the oldest first. */
export async function editsOfQuestion(db: Db, question: Question): Promise<QuestionEdit[]> {
  const rows = await listEdits(db, 'question', question.id)
  const states = [...rows.map(({ was }) => questionSchema.parse(was)), question]
  return rows.flatMap(({ id, at }, i) => {
    const [was, then] = [states[i], states[i + 1]]
    return was === undefined || then === undefined ? [] : [{ id, at, was, changed: changedOf(was, then) }]
  })
}

const CHANGED_MEANWHILE: Problem = {
  ...{ code: 'conflict', field: 'question' },
  next: 'Somebody changed this question in another window. What you typed is kept below. Open the question beside it, compare, then save again.',
}

const noQuestion = (got: string): Problem => ({
  ...{ code: 'not found', field: 'question', got },
  next: 'There is no such question. The list of questions shows them all, the waiting ones first.',
})
