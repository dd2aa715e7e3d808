import type { AnswerInputs } from './answer.ts'
import { rankInputOf } from './computeAnswer.ts'
import type { GainAsk } from './gain/gain.ts'
import type { Option } from './ranking/option.ts'
import { deskOf, endsOf } from './ranking/rank.ts'

/** What the model was asked for an option's number in each of the owner's titles, in their order. */
export function gainAsksOf(inputs: AnswerInputs, { change }: Pick<Option, 'change'>): GainAsk[] {
  const input = rankInputOf(inputs)
  const { before, after } = endsOf(deskOf(input), input, change)
  return inputs.question.wanted.map(({ titleId, settingId }) => ({
    ...{ titleId, settingId, before, after },
    machineTag: input.machine.tag,
  }))
}
