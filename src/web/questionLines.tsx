import type { QuestionLine } from '../uses/views.ts'
import type { Figures } from '../words/figures.ts'
import { pathTo } from './frame.ts'
import { Tag } from './mark.tsx'

const stateOf = (line: QuestionLine, figures: Figures): string => {
  const on = line.answeredAt === undefined ? '' : ` ${figures.date(line.answeredAt)}`
  if (line.drafted) return `message written${on}`
  return line.state === 'new' ? `asked ${figures.date(line.askedAt)}, waiting` : line.state
}

/** Questions in short lines, in the order given; without the tag of the machine whose page this is. */
export const QuestionLines = (props: {
  lines: readonly QuestionLine[]
  onPageOf?: string | undefined
  figures: Figures
}) => {
  const { lines, onPageOf, figures } = props
  return (
    <ul class="ruled">
      {lines.map((line) => (
        <li class="line">
          {line.machineTag !== onPageOf && <Tag tag={line.machineTag} />}
          <a href={pathTo('questions', line.id)}>“{line.words}”</a>
          <span class="soft">
            {line.customerName !== undefined && `${line.customerName}, `}
            {line.answerId === undefined ? (
              stateOf(line, figures)
            ) : (
              <a href={pathTo('answers', line.answerId)}>{stateOf(line, figures)}</a>
            )}
            {line.soldOnAt !== undefined && ', before it was sold on'}
          </span>
        </li>
      ))}
    </ul>
  )
}
