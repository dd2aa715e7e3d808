import type { Answer, AnswerInputs } from '../core/answer.ts'
import { computeAnswer } from '../core/computeAnswer.ts'
import type { Store } from '../store/open.ts'

/**
 * The answer to these inputs at this instant. One that was computed lately from equal inputs is given again, as old as it
 * says it is, which is at most `ageMs`: opening an answer, its reasons and its letter one after the other ranks once.
 * Every fact of the inputs counts but the instant itself, so nothing that was written meanwhile is missed.
 */
export function computedAnswer(store: Store, inputs: AnswerInputs, at: string, ageMs: number): Answer {
  const kept = KEPT.get(store) ?? new Map<string, Answer>()
  KEPT.set(store, kept)
  const key = JSON.stringify({ ...inputs, machine: { ...inputs.machine, at: undefined } })
  const before = kept.get(key)
  kept.delete(key)
  const since = before === undefined ? Number.NaN : Date.parse(at) - Date.parse(before.at)
  const answer = before !== undefined && since >= 0 && since <= ageMs ? before : computeAnswer(inputs, at)
  kept.set(key, answer)
  const [oldest] = kept.keys()
  if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest)
  return answer
}

/** An answer of a small shop takes about a megabyte. */
const MOST_KEPT = 16
/** By text of the inputs, the one used last at the end. */
const KEPT = new WeakMap<Store, Map<string, Answer>>()
