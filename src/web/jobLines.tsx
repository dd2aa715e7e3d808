import type { JobLine } from '../uses/jobs/jobViews.ts'
import type { Figures } from '../words/figures.ts'
import { sayFitter, sayJobState, sayPrice } from '../words/job.ts'
import { pathTo } from './frame.ts'
import { Tag } from './mark.tsx'

/** When it is, or when it is looked at again, or how long it has been where it is. */
const whenText = (line: JobLine, figures: Figures): string => {
  if (line.bookedFor !== undefined && line.state === 'booked') return figures.dateTime(line.bookedFor)
  if (line.state === 'agreed' && line.remindAt !== undefined)
    return `since ${figures.date(line.agreedAt)}, look again ${figures.date(line.remindAt)}`
  return `since ${figures.date(line.steppedAt)}`
}

const aboutText = (line: JobLine, figures: Figures): string =>
  [
    line.customerName,
    line.fittedBy === 'owner' ? sayFitter(line.fittedBy) : undefined,
    sayPrice(line.settledMinor ?? line.agreedMinor, figures),
  ]
    .filter((text) => text !== undefined)
    .join(' · ')

/** Jobs as cards, for those that somebody must look at today. */
export const JobCards = ({ lines, figures }: { lines: readonly JobLine[]; figures: Figures }) => (
  <ul class="cards">
    {lines.map((line) => (
      <li class="card ask">
        <p class="line">
          <Tag tag={line.machineTag} />
          <span class="soft">
            {sayJobState(line)}: {whenText(line, figures)}
          </span>
        </p>
        <h2>
          <a href={pathTo('jobs', line.id)}>
            <span class="num">{line.id}</span> {line.what}
          </a>
        </h2>
        <p class="soft">{aboutText(line, figures)}</p>
      </li>
    ))}
  </ul>
)

/** Jobs in short lines, in the order given; without the tag of the machine whose page this is. */
export const JobLines = (props: {
  lines: readonly JobLine[]
  onPageOf?: string | undefined
  figures: Figures
}) => {
  const { lines, onPageOf, figures } = props
  return (
    <ul class="ruled">
      {lines.map((line) => (
        <li class="line">
          {line.machineTag !== onPageOf && <Tag tag={line.machineTag} />}
          <a href={pathTo('jobs', line.id)}>
            <span class="num">{line.id}</span> {line.what}
          </a>
          <span class="soft">
            {sayJobState(line)}, {whenText(line, figures)} · {aboutText(line, figures)}
          </span>
        </li>
      ))}
    </ul>
  )
}
