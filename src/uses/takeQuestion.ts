import type { Question } from '../core/question.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import type { MachineLine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { insertQuestion, nextQuestionId } from '../store/questions.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { machinesMeant } from './findMachine.ts'

const TAGS_NAMED = 12

const nobody = (got: string): Problem => ({
  code: 'unknown name',
  field: 'machineTag',
  got,
  next: 'No machine has this tag, and no owner has this name. Add the machine first, or look for it under Machines.',
})

function several(got: string, lines: readonly MachineLine[]): Problem {
  const named = lines.slice(0, TAGS_NAMED).map(({ tag, ownerName }) => `${tag} (${ownerName})`)
  const more = lines.length > TAGS_NAMED ? ` and ${lines.length - TAGS_NAMED} more` : ''
  const next = `could be ${lines.length} machines: ${named.join(', ')}${more}. Write the tag of one of them.`
  return { code: 'not allowed', field: 'machineTag', got, next }
}

/**
 * Takes down a question as it was asked now. `machineTag` may be a tag in any case, or an owner's name or a piece of it
 * when just one machine is meant by it. Problems name the field: `machineTag` or `wanted`.
 */
export async function takeQuestion(
  store: Store,
  question: Omit<Question, 'id' | 'askedAt'>,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const problems: Problem[] = []
    const meant = await machinesMeant(tx, question.machineTag)
    const [machine] = meant
    if (machine === undefined) problems.push(nobody(question.machineTag))
    else if (meant.length > 1) problems.push(several(question.machineTag, meant))
    const titles = new Set((await listTitles(tx)).map((t) => t.id))
    const settings = new Set((await listSettings(tx)).map((s) => s.id))
    for (const { titleId, settingId } of question.wanted) {
      const got = !titles.has(titleId) ? titleId : !settings.has(settingId) ? settingId : undefined
      const next = 'is not known here. Choose a title and a setting from the lists.'
      if (got !== undefined) problems.push({ code: 'unknown name', field: 'wanted', got, next })
    }
    if (problems.length > 0 || machine === undefined) return failed(...problems)
    const id = await nextQuestionId(tx)
    await insertQuestion(tx, { ...question, machineTag: machine.tag, id, askedAt: at })
    return ok({ id })
  })
}
