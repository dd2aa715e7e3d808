import type { Answer } from '../../core/answer.ts'
import { modelFor } from '../../core/computeAnswer.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import type { Part } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import { gainAsksOf } from '../../core/whyOption.ts'
import { readExcerpt } from '../../input/excerpt.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { loadAnswer } from '../../store/answers.ts'
import type { Store } from '../../store/open.ts'
import { loadParts } from '../../store/parts.ts'
import { answerLately } from '../answerQuestion.ts'
import { keptFitOf } from './keptFit.ts'

/** The runs that pull are told where they are there by then; all else the answer knows by itself. */
const PULLS_MS = 2000

/** What stands behind an option's number in each of the owner's titles. */
export type WhyView = {
  readonly answer: Answer
  readonly option: Option
  /** In the order of the owner's titles; `undefined` where the model of the answer tells none. */
  readonly whys: readonly (Why | undefined)[]
  /** Names of the parts in the runs that pull, which need not be among the answer's own. */
  readonly parts: readonly Part[]
}

/**
 * The option as the question is answered now, with the runs of other machines that move its number. A model that is not
 * fitted within `waitMs` is a problem with code `busy`.
 */
export async function whyOfQuestion(
  store: Store,
  questionId: string,
  optionId: string | undefined,
  at: string,
  waitMs?: number,
): Promise<Result<WhyView>> {
  const answer = await answerLately(store, questionId, at, waitMs)
  if (!answer.ok) return answer
  return viewOf(store, answer.value, optionId, at)
}

/** The option of a kept answer, from the piece of the model that was kept with it. */
export async function whyOfAnswer(
  store: Store,
  answerId: string,
  optionId: string | undefined,
): Promise<Result<WhyView>> {
  const saved = await loadAnswer(store.db, answerId)
  if (saved === undefined) {
    const next = 'There is no such answer. Open its question to see the ones that were kept.'
    return failed({ code: 'not found', field: 'answer', got: answerId, next })
  }
  const gain = readExcerpt(saved.answer.inputs.gain)
  if (gain.ok) return viewOf(store, saved.answer, optionId, undefined)
  const field = gain.problems[0]?.field ?? 'gain'
  const next =
    'What was kept to explain this answer is damaged, so it cannot be told what stands behind its numbers. What the answer says stands. Open its question for the numbers of today.'
  return failed({ code: 'unreadable', field, next })
}

async function viewOf(
  store: Store,
  answer: Answer,
  optionId: string | undefined,
  at: string | undefined,
): Promise<Result<WhyView>> {
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const option = [...ranked, ...withoutNumber, ...needsAFact].find(({ id }) => id === optionId)
  if (option === undefined) {
    const next = 'This answer has no such option. Go back to it and choose "All that stands behind it" there.'
    return failed({ code: 'not found', field: 'option', got: optionId, next })
  }
  const asks = gainAsksOf(answer.inputs, option)
  const model = modelFor(answer.inputs)
  const live =
    at === undefined || answer.inputs.gain === undefined
      ? undefined
      : await keptFitOf(store).why(asks, at, PULLS_MS)
  const pulled = live?.state === 'told' ? live.told : []
  const whys = asks.map((ask, i) => pulled[i] ?? model.why?.(ask))
  const ids = whys.flatMap((why) => why?.pulls.flatMap((p) => [p.processorId, p.cardId]) ?? [])
  const wanted = option.gains.flatMap((gain) =>
    gain.grade === 'no number' ? gain.wanted.flatMap(({ fitted: f }) => [f.processorId, f.cardId]) : [],
  )
  const known = new Map(answer.inputs.parts.map((part) => [part.id, part]))
  const others = [...new Set([...ids, ...wanted])].filter((id) => !known.has(id))
  return ok({ answer, option, whys, parts: [...known.values(), ...(await loadParts(store.db, others))] })
}
