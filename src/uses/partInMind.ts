import { IN_MIND_ID } from '../core/asked/inMind.ts'
import { statedOnly } from '../core/naming/fromName.ts'
import type { Part } from '../core/part.ts'
import { partSchema } from '../input/parts.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { loadParts } from '../store/parts.ts'
import { loadQuestion } from '../store/questions.ts'
import { keepChange } from './changeQuestion.ts'
import type { QuestionId } from './questionState.ts'

/**
 * Keeps what somebody found out about the part that a question has in mind: its figures stay with the question, and
 * the answer counts them from now on. Figures that only its name tells are not kept; they are read anew. What is absent
 * is known by the name alone or not at all. Throws a ZodError for a figure that its kind cannot have: forms read their
 * fields with the cells of its table first.
 */
export async function describePartInMind(
  store: Store,
  questionId: string,
  part: Part,
  at: string,
): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    const question = await loadQuestion(tx, questionId)
    if (question?.partInMind === undefined) return failed(noPartInMind(questionId))
    const { kind, words } = question.partInMind
    if (part.kind !== kind) {
      const next = `The part in mind is a ${kind} and stays one. Take down another question for the other.`
      return failed({ code: 'not allowed', field: 'kind', got: part.kind, next })
    }
    const stated = partSchema.parse({ ...statedOnly(part), id: IN_MIND_ID, name: words })
    const partInMind = { ...question.partInMind, part: stated }
    await keepChange(tx, question, { ...question, partInMind }, at)
    return ok({ id: questionId })
  })
}

/**
 * Somebody says which record the owner's words mean. From now on the question is about that part, with the record's
 * figures; its price stays, and what was typed for it before stands in the question's history.
 */
export async function nameRecord(
  store: Store,
  questionId: string,
  partId: string,
  at: string,
): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    const question = await loadQuestion(tx, questionId)
    if (question?.partInMind === undefined) return failed(noPartInMind(questionId))
    const { kind, priceMinor } = question.partInMind
    const [record] = await loadParts(tx, [partId])
    if (record?.kind !== kind) {
      const next = `There is no ${kind} on record under this key. Choose one from the list.`
      return failed({ code: 'not found', field: 'record', got: partId, next })
    }
    const partInMind = { kind, words: record.id, ...(priceMinor !== undefined && { priceMinor }) }
    await keepChange(tx, question, { ...question, partInMind }, at)
    return ok({ id: questionId })
  })
}

/** The words that tell its exact model, or that nobody knows it. */
export type ModelSaid = { readonly words: string } | 'not known'

/**
 * Somebody says which exact model a part in mind is: its words from now on, under which the shop looks up its figures;
 * or that nobody knows, so that its figures are asked for one by one. Its price stays; figures typed for other words do
 * not hold for this model and stand in the question's history.
 */
export async function sayModel(
  store: Store,
  questionId: string,
  said: ModelSaid,
  at: string,
): Promise<Result<QuestionId>> {
  return store.write(async (tx) => {
    const question = await loadQuestion(tx, questionId)
    if (question?.partInMind === undefined) return failed(noPartInMind(questionId))
    const { kind, words, priceMinor, part } = question.partInMind
    const isSame = said === 'not known' || said.words === words
    const partInMind = {
      kind,
      words: said === 'not known' ? words : said.words,
      ...(priceMinor !== undefined && { priceMinor }),
      ...(isSame && part !== undefined && { part }),
      model: said === 'not known' ? ('not known' as const) : ('exact' as const),
    }
    await keepChange(tx, question, { ...question, partInMind }, at)
    return ok({ id: questionId })
  })
}

export const noPartInMind = (got: string): Problem => ({
  ...{ code: 'not found', field: 'question', got },
  next: 'There is no question with a part in mind here. The list of questions shows them all.',
})
