import type { AnswerInputs } from './answer.ts'
import { modelFor, rankInputOf } from './computeAnswer.ts'
import { type Pace, paceOf } from './gain/pace/pace.ts'
import { displayOf } from './question.ts'
import { deskOf } from './ranking/rank.ts'

/**
 * What sets the pace today in each of the owner's titles, in their order; undefined where the model that the answer counts
 * on does not tell: nobody ran the title, a part is not known, or only measured ends count.
 */
export function pacesOf(inputs: AnswerInputs): readonly (Pace | undefined)[] {
  const model = modelFor(inputs)
  const { question, machine } = inputs
  const today = model.why === undefined ? undefined : deskOf(rankInputOf(inputs)).fittedToday
  const { refreshHz } = displayOf(question)
  return question.wanted.map(({ titleId, settingId }) => {
    const ask = { titleId, settingId, machineTag: machine.tag, before: today, after: today }
    const gain = today && model.predict(ask)
    const why = today && model.why?.(ask)
    if (gain === undefined || gain.grade === 'no number' || why === undefined) return undefined
    return paceOf(why.before, { isCapped: gain.atLeast?.before === true, refreshHz })
  })
}
