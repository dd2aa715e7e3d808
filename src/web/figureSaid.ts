import type { Language } from '../core/language.ts'
import { allowedIn } from '../words/ownerProblems.ts'
import { capital } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'
import type { PartFigure } from './partForm.ts'

/** Labels of figures stand inside sentences, behind their article. */
const LEADING_ARTICLE = /^(?:den|die|das) /

/** A figure's label, and what it takes, in the language of the form. */
export function sayFigure({ field, label, hint, cell }: PartFigure, language: Language) {
  if (language === 'en') return { label, hint }
  const specs: Readonly<Record<string, { readonly label: string } | undefined>> = wordsIn(language).specs
  const named = specs[field]?.label.replace(LEADING_ARTICLE, '') ?? label
  const allowed = allowedIn(cell.allowed, language)
  return { label: capital(named, language), hint: allowed && `${capital(allowed, language)}.` }
}
