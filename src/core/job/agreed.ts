import type { Answer } from '../answer.ts'
import { IN_MIND_ID } from '../asked/inMind.ts'
import type { Change } from '../build.ts'
import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import type { NetPrice, Option } from '../ranking/option.ts'
import { dueOfLines } from '../ranking/price.ts'
import { isShops } from './homeSteps.ts'
import type { Fitter } from './job.ts'
import { type Promised, promisedBy } from './promise.ts'

/** An option of an answer, and on what it stands. */
export type Agreeable = {
  readonly option: Option
  /** `look first`: worth something only if there is something to do. `a fact`: one missing fact decides whether it fits. */
  readonly standsOn: 'itself' | 'look first' | 'a fact'
}

/**
 * Every option of an answer an owner could name, with the id; what was asked by name is one of them, and so is the way
 * that needs no fact beside one that does.
 */
export function agreeable(answer: Answer, optionId: string): Agreeable | undefined {
  const { ranked, withoutNumber, needsAFact, checkFirst } = answer.ranking
  const looked = checkFirst.map(({ option }) => option)
  const named = askedOptions(answer)
  const of = (options: readonly Option[]) => options.find(({ id }) => id === optionId)
  const sure = of(ranked) ?? of(withoutNumber)
  if (sure !== undefined) return { option: sure, standsOn: 'itself' }
  const surely = of([...needsAFact, ...looked, ...named].flatMap((o) => o.surely ?? []))
  if (surely !== undefined) return { option: surely, standsOn: 'itself' }
  const look = of(looked)
  if (look !== undefined) return { option: look, standsOn: 'look first' }
  const open = of(needsAFact)
  if (open !== undefined) return { option: open, standsOn: 'a fact' }
  const asked = of(named)
  return asked && { option: asked, standsOn: asked.verdict === "can't tell" ? 'a fact' : 'itself' }
}

function askedOptions({ asked }: Answer): readonly Option[] {
  if (asked === undefined) return []
  if ('change' in asked) return asked.change.option === undefined ? [] : [asked.change.option]
  return asked.ask === 'something is wrong' ? asked.parts : []
}

/** Why an option is not agreed, if it is not: one missing fact decides, or it does not go in. */
export const whyNot = ({ option, standsOn }: Agreeable): 'a fact' | 'does not fit' | undefined =>
  option.verdict === 'does not fit' ? 'does not fit' : standsOn === 'a fact' ? 'a fact' : undefined

/**
 * The change with a key of the shop's own for a part that only the owner's words name: the checklist, the machine and
 * its runs need one that stays.
 */
export const withOwnKey = (change: Change, key: string | undefined): Change =>
  key === undefined
    ? change
    : { ...change, add: change.add.map((part) => (part.id === IN_MIND_ID ? { ...part, id: key } : part)) }

/** The part of a change that the shop has no record of. */
export const unknownPart = ({ add }: Change): Part | undefined => add.find(({ id }) => id === IN_MIND_ID)

/** What is promised with it: nothing where nobody knows yet whether there is anything to do. */
export const promiseOf = ({ option, standsOn }: Agreeable, answer: Answer): Promised[] =>
  standsOn === 'itself'
    ? promisedBy(option.gains, answer.inputs.question.wanted, answer.inputs.gain?.widthFactor)
    : []

/**
 * The price by who does the work: an owner who fits the parts at home pays for no work but what stays the shop's, such
 * as firmware, with the tax on that; opening and fee are for hands in our shop.
 */
export const agreedPrice = (price: NetPrice, fittedBy: Fitter): Minor =>
  fittedBy === 'shop'
    ? price.netMinor
    : dueOfLines(
        price,
        price.lines.filter(
          ({ what, ref }) => what === 'part' || what === 'trade-in' || (what === 'work' && isShops(ref)),
        ),
      )
