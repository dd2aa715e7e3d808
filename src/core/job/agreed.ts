import type { Answer } from '../answer.ts'
import { type Minor, sumMinor } from '../money.ts'
import type { NetPrice, Option } from '../ranking/option.ts'
import type { Fitter } from './job.ts'
import { type Promised, promisedBy } from './promise.ts'

/** An option of an answer, and on what it stands. */
export type Agreeable = {
  readonly option: Option
  /** `look first`: worth something only if there is something to do. `a fact`: one missing fact decides whether it fits. */
  readonly standsOn: 'itself' | 'look first' | 'a fact'
}

/** Every option of an answer an owner could name, with the id; what was asked by name is one of them. */
export function agreeable(answer: Answer, optionId: string): Agreeable | undefined {
  const { ranked, withoutNumber, needsAFact, checkFirst } = answer.ranking
  const of = (options: readonly Option[]) => options.find(({ id }) => id === optionId)
  const sure = of(ranked) ?? of(withoutNumber)
  if (sure !== undefined) return { option: sure, standsOn: 'itself' }
  const look = of(checkFirst.map(({ option }) => option))
  if (look !== undefined) return { option: look, standsOn: 'look first' }
  const open = of(needsAFact)
  if (open !== undefined) return { option: open, standsOn: 'a fact' }
  const { asked } = answer
  const named = asked !== undefined && 'change' in asked ? of([asked.change.option ?? []].flat()) : undefined
  return named && { option: named, standsOn: named.verdict === "can't tell" ? 'a fact' : 'itself' }
}

/** What is promised with it: nothing where nobody knows yet whether there is anything to do. */
export const promiseOf = ({ option, standsOn }: Agreeable, answer: Answer): Promised[] =>
  standsOn === 'itself' ? promisedBy(option.gains, answer.inputs.question.wanted) : []

/** The price by who does the work: an owner who fits the parts at home pays for no work. */
export const agreedPrice = ({ lines, netMinor }: NetPrice, fittedBy: Fitter): Minor =>
  fittedBy === 'shop'
    ? netMinor
    : sumMinor(
        lines.filter(({ what }) => what === 'part' || what === 'trade-in').map((line) => line.amountMinor),
      )
