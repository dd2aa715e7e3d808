import type { Ask, Question } from '../core/question.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import type { Db, Store } from '../store/open.ts'
import { insertQuestion, nextQuestionId } from '../store/questions.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { oneMachineMeant } from './findMachine.ts'

/**
 * Takes down a question as it was asked now. `machineTag` may be a tag in any case, or an owner's name or a piece of it
 * when just one machine is meant by it. Problems name the field: `machineTag`, `wanted`, or what its kind needs:
 * `partInMind`, `complaint`.
 */
export async function takeQuestion(
  store: Store,
  question: Omit<Question, 'id' | 'askedAt'>,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const machine = await oneMachineMeant(tx, question.machineTag)
    const problems = [...neededFor(question), ...(await unknownTitles(tx, question))]
    if (!machine.ok) return failed(...machine.problems, ...problems)
    if (problems.length > 0) return failed(...problems)
    return ok({ id: await keepQuestion(tx, { ...question, machineTag: machine.value.tag }, at) })
  })
}

/** Keeps a question that nothing is wrong with; gives its id. */
export async function keepQuestion(
  tx: Db,
  question: Omit<Question, 'id' | 'askedAt'>,
  at: string,
): Promise<string> {
  const id = await nextQuestionId(tx)
  await insertQuestion(tx, { ...question, id, askedAt: at })
  return id
}

/** Kinds of question that are about titles; the others can be answered without any. */
const ABOUT_TITLES: ReadonlySet<Ask> = new Set(['what can I do', 'will it run this'])

/** What its kind cannot do without. */
export function neededFor({
  asks = 'what can I do',
  wanted,
  partInMind,
  complaint,
}: Omit<Question, 'id' | 'askedAt'>): Problem[] {
  if (ABOUT_TITLES.has(asks) && wanted.length === 0) {
    const next =
      'Choose at least one title with its setting; the gain is worked out in the owner’s own titles.'
    return [{ code: 'missing', field: 'wanted', next }]
  }
  if (asks === 'can I put this in' && partInMind === undefined)
    return [{ code: 'missing', field: 'partInMind', next: 'Write which part it is, as the owner wrote it.' }]
  if (asks === 'something is wrong' && complaint === undefined)
    return [{ code: 'missing', field: 'complaint', next: 'Say what bothers: slow, hot or loud.' }]
  return []
}

/** Titles and settings that nobody keeps here. */
export async function unknownTitles(tx: Db, { wanted }: Pick<Question, 'wanted'>): Promise<Problem[]> {
  const titles = new Set((await listTitles(tx)).map((t) => t.id))
  const settings = new Set((await listSettings(tx)).map((s) => s.id))
  return wanted.flatMap(({ titleId, settingId }): Problem[] => {
    const got = !titles.has(titleId) ? titleId : !settings.has(settingId) ? settingId : undefined
    const next = 'is not known here. Choose a title and a setting from the lists.'
    return got === undefined ? [] : [{ code: 'unknown name', field: 'wanted', got, next }]
  })
}
