import type { Language } from '../core/language.ts'
import type { Kept } from '../uses/customerKept.ts'
import type { Forms } from '../words/say.ts'
import { fill, formOf } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'

/** What erasing takes away, what it leaves and why; the same for the owner and the shop. */
export const EraseShown = ({ kept, language = 'en' }: { kept: Kept; language?: Language }) => {
  const w = wordsIn(language).ownerPerson.erase
  const rules = new Intl.PluralRules(language)
  const counted = (forms: Forms, n: number): string => fill(formOf(forms, n, rules), { count: String(n) })
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
