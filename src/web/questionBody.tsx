import { CHANNELS } from '../core/question.ts'
import { CHANNEL_WORDS } from '../words/en/questionForm.ts'
import { Field, Select, textOf } from './form.tsx'
import {
  AsksChoice,
  ComplaintFields,
  DisplayFields,
  type FieldsProps,
  isFoldOpen,
  PartFields,
  TargetAndBudget,
  WishFields,
} from './questionFields.tsx'
import { TitleFields } from './questionTitles.tsx'

/** A question about titles shows where they go; another kind leaves them folded. */
const needsTitles = ({ typed, problems }: FieldsProps): boolean =>
  problems.some((p) => p.field === 'wanted') ||
  ['what can I do', 'will it run this', undefined].includes(textOf(typed, 'asks'))

/** What is asked, apart from whose machine it is about: the same when it is taken down and when it is changed. */
export const QuestionBody = (props: FieldsProps) => {
  const { typed, problems } = props
  return (
    <>
      <Field
        name="words"
        label="The owner’s own words"
        hint="They become the headline of the answer, as they stand."
        rows={3}
        typed={typed}
        problems={problems}
        required
      />
      <AsksChoice {...props} />
      <PartFields {...props} />
      <ComplaintFields {...props} />
      <details
        class="of-titles"
        open={isFoldOpen(props, ['wanted.', 'targetFps', 'budget']) || needsTitles(props)}
      >
        <summary>Titles, wanted frame rate, budget</summary>
        <TitleFields {...props} />
        <TargetAndBudget {...props} />
      </details>
      <details
        open={isFoldOpen(props, [
          'widthPx',
          'heightPx',
          'refreshHz',
          'planned.',
          'wishes',
          'spaceGB',
          'cameBy',
        ])}
      >
        <summary>Display, wishes, how it came</summary>
        <DisplayFields {...props} />
        <WishFields {...props} />
        <Select
          name="cameBy"
          label="How it came"
          typed={typed}
          problems={problems}
          choices={CHANNELS.map((channel) => [channel, CHANNEL_WORDS[channel]] as const)}
        />
      </details>
    </>
  )
}
