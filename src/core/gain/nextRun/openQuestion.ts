import type { AnswerInputs } from '../../answer.ts'
import { rankInputOf } from '../../computeAnswer.ts'
import { displayOf } from '../../question.ts'
import { deskOf, endsOf, rank } from '../../ranking/rank.ts'
import { fittedKey } from '../run.ts'
import type { OpenQuestion } from './question.ts'

/**
 * What a question hangs on, from the inputs of its answer: the options that are ranked, and those that have no number
 * yet. `undefined` where nothing is to choose between, or what is fitted today is not known.
 */
export function openQuestionOf(inputs: AnswerInputs): OpenQuestion | undefined {
  const input = rankInputOf(inputs)
  const { question } = input
  const desk = deskOf(input)
  const before = desk.fittedToday
  if (before === undefined || question.wanted.length === 0) return undefined
  const { ranked, withoutNumber } = rank(input)
  const options = [...ranked, ...withoutNumber].flatMap(({ id, change, price }) => {
    const { after } = endsOf(desk, input, change)
    return after === undefined || fittedKey(after) === fittedKey(before)
      ? []
      : [{ id, after, netMinor: price.netMinor }]
  })
  if (options.length === 0) return undefined
  const { refreshHz } = displayOf(question)
  return {
    ...{ id: question.id, machineTag: question.machineTag, before, options, refreshHz },
    titles: question.wanted.map(({ titleId, settingId, weight }) => ({ titleId, settingId, weight })),
  }
}
