import type { Changeable } from '../core/asked/changed.ts'
import type { Fitter } from '../core/job/job.ts'
import type { JobState, QuestionState } from '../core/job/states.ts'
import type { Language } from '../core/language.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import { CHANGED_WORDS } from './en/questionForm.ts'
import { oneLine } from './say.ts'
import { wordsIn } from './tables.ts'

/** A question's state for the shop. */
export const STATE_WORDS: { readonly [S in QuestionState]: string } = {
  new: 'new',
  'waiting for the owner': 'waiting for the owner',
  answered: 'answered',
  'called off': 'called off',
}

/**
 * The same for the owner, who sees the state of the job once there is one.
 *
 * @param isIn the parts are in
 */
export function sayOwnerState(
  state: QuestionState | JobState,
  fittedBy?: Fitter | undefined,
  isIn = false,
  language: Language = 'en',
): string {
  const { states, atHome, inAtHome } = wordsIn(language).owner
  if (fittedBy !== 'owner') return states[state]
  if (state === 'on the bench' && isIn) return inAtHome
  return state === 'agreed' || state === 'booked' || state === 'on the bench' ? atHome[state] : states[state]
}

type Step = { readonly to: string; readonly because?: string | undefined }

/** One step of a question, with why; a limit is said by its label. */
export function sayStep({ to, because }: Step): string {
  if (because === undefined) return to
  const [, what, key] = /^(asked for|arrived|no longer asked for): (\w+)$/.exec(because) ?? []
  const limit = LIMIT_KEYS.find((known) => known === key)
  return limit === undefined ? `${to} (${oneLine(because)})` : `${to} (${what}: ${LIMIT_WORDS[limit].label})`
}

/** What was changed about a question: "changed: titles, budget". */
export const sayChanged = (changed: readonly Changeable[]): string =>
  `changed: ${changed.map((field) => CHANGED_WORDS[field]).join(', ')}`
