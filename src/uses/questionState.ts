import { type QuestionState, type QuestionStep, questionAfter } from '../core/job/states.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { Db, Store } from '../store/open.ts'
import { questionStanding, questionStateOf, setQuestionState, setReminder } from '../store/questions.ts'
import { addStateChange } from '../store/stateChanges.ts'

/** One step of a question along its roads, written down; the only place where its state changes. */
export async function stepQuestion(
  tx: Db,
  questionId: string,
  step: QuestionStep,
  at: string,
  because?: string,
): Promise<Result<QuestionState>> {
  const from = await questionStateOf(tx, questionId)
  if (from === undefined) {
    const next = 'There is no such question. The list of questions shows them all, the waiting ones first.'
    return failed({ code: 'not found', field: 'question', got: questionId, next })
  }
  const to = questionAfter(from, step)
  if (to === undefined) {
    const next = `This question is ${from}, so this is not a step from here. Open it again.`
    return failed({ code: 'conflict', field: 'question', next })
  }
  await setQuestionState(tx, questionId, to)
  await addStateChange(tx, { about: 'question', ref: questionId, at, from, to, because })
  return ok(to)
}

/** An owner's yes answers the question, wherever it was; one that was called off is taken up again by it. */
export async function answeredByYes(tx: Db, questionId: string, at: string): Promise<Result<QuestionState>> {
  const from = await questionStateOf(tx, questionId)
  if (from === 'answered') return ok(from)
  const because = 'the owner said yes'
  if (from === 'called off') {
    const again = await stepQuestion(tx, questionId, 'taken up again', at, because)
    if (!again.ok) return again
  }
  return stepQuestion(tx, questionId, 'answered', at, because)
}

export type QuestionId = { readonly id: string }

/** The owner wants it no more, or it came twice. */
export async function callOffQuestion(
  store: Store,
  id: string,
  because: string | undefined,
  at: string,
): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    const stepped = await stepQuestion(tx, id, 'called off', at, because)
    if (!stepped.ok) return stepped
    await setReminder(tx, id, undefined)
    return ok({ id })
  })
}

export async function takeUpQuestion(store: Store, id: string, at: string): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    const stepped = await stepQuestion(tx, id, 'taken up again', at)
    return stepped.ok ? ok({ id }) : stepped
  })
}

/** Look at it again from that day on; `undefined` takes the reminder away. */
export async function remindOfQuestion(
  store: Store,
  id: string,
  remindAt: string | undefined,
): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    if ((await questionStanding(tx, id)) === undefined) {
      const next = 'There is no such question. The list of questions shows them all, the waiting ones first.'
      return failed({ code: 'not found', field: 'question', got: id, next })
    }
    await setReminder(tx, id, remindAt)
    return ok({ id })
  })
}
