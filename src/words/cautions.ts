import type { CautionId } from '../core/fit/finding.ts'
import { CAUTION_IDS } from '../core/fit/finding.ts'
import type { Language } from '../core/language.ts'
import type { CautionWords } from './en/cautions.ts'
import { wordsIn } from './tables.ts'

/** Cautions of every job where hands go into a machine; those of its findings come on top. */
const EVERY_OPENING: readonly CautionId[] = ['unplug', 'discharge', 'psu-closed', 'esd', 'defer']

/** The words of one caution: `short` for a mail about one part, `long` for the owner's page and for print. */
export const sayCaution = (id: CautionId, language: Language = 'en'): CautionWords =>
  wordsIn(language).cautions[id]

/**
 * Cautions for opening a machine to do something with these cautions: each once, in the order in which the hands
 * need them (the order of CAUTION_IDS, `defer` last).
 */
export function cautionsForOpening(ofFindings: readonly CautionId[]): CautionId[] {
  const wanted = new Set([...EVERY_OPENING, ...ofFindings])
  return CAUTION_IDS.filter((id) => wanted.has(id))
}
