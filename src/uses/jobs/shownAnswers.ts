import { createHash } from 'node:crypto'
import type { Answer } from '../../core/answer.ts'
import { partsOf } from '../../core/build.ts'
import { type Agreeable, promiseOf } from '../../core/job/agreed.ts'
import type { Store } from '../../store/open.ts'
import { figuresFor } from '../../words/figures.ts'
import { promiseFigures } from '../../words/job.ts'

/** So many answers that a yes may be said to are remembered; some 100 kB each. */
const REMEMBERED = 20

/** What pages for a yes showed lately, by its mark; gone when the program stops. */
const shown = new WeakMap<Store, Map<string, Answer>>()

/**
 * Names what a yes is said to: this option for this machine as it is, at this price, with this promise as it is told. Two
 * fits to the same runs differ in digits that nobody sees.
 */
export function markOf(answer: Answer, chosen: Agreeable): string {
  const { machine, question, shop } = answer.inputs
  const { id, verdict, price } = chosen.option
  const parts = partsOf(machine.build).map((part) => part.id)
  const figures = figuresFor(shop)
  const promise = promiseOf(chosen, answer).map((promised) => [
    promised.titleId,
    promised.settingId,
    promiseFigures(promised, figures, question.targetFps),
  ])
  const said = [question.id, machine.tag, parts, id, verdict, price, promise]
  return createHash('sha256').update(JSON.stringify(said)).digest('hex').slice(0, 24)
}

/** An answer as it is shown, so that a yes to it need not work it out anew. */
export function remember(store: Store, mark: string, answer: Answer): void {
  const of = shown.get(store) ?? new Map<string, Answer>()
  shown.set(store, of)
  of.delete(mark)
  of.set(mark, answer)
  for (const oldest of [...of.keys()].slice(0, Math.max(0, of.size - REMEMBERED))) of.delete(oldest)
}

/** The answer to this question that was shown under the mark; undefined where nobody remembers it. */
export function remembered(store: Store, questionId: string, mark: string): Answer | undefined {
  const answer = shown.get(store)?.get(mark)
  return answer?.inputs.question.id === questionId ? answer : undefined
}
