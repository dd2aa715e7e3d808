import { sayFinding } from '../words/findings.ts'
import { saySpace } from '../words/space.ts'
import type { Shown } from './answerContext.ts'
import { VerdictMark } from './mark.tsx'

/** Drives of the shelf in this machine, for somebody who asks for more space. */
export const SpaceList = ({ shown: { answer, figures, lookup } }: { shown: Shown }) => {
  const said = saySpace(answer, figures, {
    part: lookup.partName,
    finding: (finding) => [sayFinding(finding, figures, lookup).owner],
  })
  if (said === undefined) return null
  return (
    <section id="space">
      <h2>{said.head}</h2>
      {said.notes.map((note) => (
        <p class="soft">{note}</p>
      ))}
      <ul class="ruled">
        {said.rows.map(({ verdict, what, says }) => (
          <li>
            <VerdictMark verdict={verdict} /> <b>{what}</b>
            {says.map((line) => (
              <small class="block">{line}</small>
            ))}
          </li>
        ))}
      </ul>
    </section>
  )
}
