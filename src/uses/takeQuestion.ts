import type { Question } from '../core/question.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { insertQuestion, nextQuestionId } from '../store/questions.ts'
import { listSettings, listTitles } from '../store/titles.ts'

/** Takes down a question as it was asked now. Problems name the field: `machineTag` or `wanted`. */
export async function takeQuestion(
  store: Store,
  question: Omit<Question, 'id' | 'askedAt'>,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const problems: Problem[] = []
    if ((await loadMachine(tx, question.machineTag)) === undefined) {
      const next = 'No machine has this tag. Add the machine first, or look for its tag under Machines.'
      problems.push({ code: 'unknown name', field: 'machineTag', got: question.machineTag, next })
    }
    const titles = new Set((await listTitles(tx)).map((t) => t.id))
    const settings = new Set((await listSettings(tx)).map((s) => s.id))
    for (const { titleId, settingId } of question.wanted) {
      const got = !titles.has(titleId) ? titleId : !settings.has(settingId) ? settingId : undefined
      const next = 'is not known here. Choose a title and a setting from the lists.'
      if (got !== undefined) problems.push({ code: 'unknown name', field: 'wanted', got, next })
    }
    if (problems.length > 0) return failed(...problems)
    const id = await nextQuestionId(tx)
    await insertQuestion(tx, { ...question, id, askedAt: at })
    return ok({ id })
  })
}
