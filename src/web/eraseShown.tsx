import type { Kept } from '../uses/customerKept.ts'
import { PERSON_EN } from '../words/en/ownerPerson.ts'
import type { Forms } from '../words/say.ts'
import { fill, formOf } from '../words/say.ts'

const w = PERSON_EN.erase
const RULES = new Intl.PluralRules('en')

const counted = (forms: Forms, n: number): string => fill(formOf(forms, n, RULES), { count: String(n) })

/** What erasing takes away, what it leaves and why; the same for the owner and the shop. */
export const EraseShown = ({ kept }: { kept: Kept }) => {
  const { particulars: _, ...gone } = kept.gone
  const counts = Object.entries(gone) as [keyof typeof gone, number][]
  const { sales, jobs, answers, reports, consents, machines } = kept.stays
  const stays = [
    sales + jobs > 0 && w.kept.accounts,
    machines > 0 && w.kept.machine,
    answers + reports > 0 && w.kept.figures,
    consents > 0 && w.kept.consent,
  ].filter((line) => line !== false)
  return (
    <>
      <h2>{w.goes}</h2>
      <ul>
        <li>{w.gone.particulars}</li>
        {counts.map(([kind, n]) => n > 0 && <li>{counted(w.gone[kind], n)}</li>)}
      </ul>
      {stays.length > 0 && (
        <>
          <h2>{w.stays}</h2>
          <ul>
            {stays.map((line) => (
              <li>{line}</li>
            ))}
          </ul>
        </>
      )}
      <p class="soft">{w.backups}</p>
    </>
  )
}
