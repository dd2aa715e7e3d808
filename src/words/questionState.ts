import type { Changeable } from '../core/asked/changed.ts'
import type { Fitter } from '../core/job/job.ts'
import type { JobState, QuestionState } from '../core/job/states.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import { CHANGED_WORDS } from './en/questionForm.ts'
import { oneLine } from './say.ts'

/** A question's state for the shop. */
export const STATE_WORDS: { readonly [S in QuestionState]: string } = {
  new: 'new',
  'waiting for the owner': 'waiting for the owner',
  answered: 'answered',
  'called off': 'called off',
}

/** The same for the owner, who sees the state of the job once there is one. */
const OWNER_STATE_WORDS: { readonly [S in QuestionState | JobState]: string } = {
  new: 'we are looking at it',
  'waiting for the owner': 'we need one thing from you',
  answered: 'answered',
  'called off': 'put aside',
  agreed: 'agreed; we make a date with you',
  booked: 'booked',
  'on the bench': 'on our bench now',
  done: 'done',
}

/** Of a job that the owner fits at home: nothing stands on our bench. */
const AT_HOME: Partial<typeof OWNER_STATE_WORDS> = {
  agreed: 'agreed; you fit it at home',
  booked: 'booked: you pick the parts up',
  'on the bench': 'with you, to fit',
}

const IN_AT_HOME = 'it is in'

/** @param isIn the parts are in */
export function sayOwnerState(
  state: QuestionState | JobState,
  fittedBy?: Fitter | undefined,
  isIn = false,
): string {
  if (fittedBy !== 'owner') return OWNER_STATE_WORDS[state]
  return state === 'on the bench' && isIn ? IN_AT_HOME : (AT_HOME[state] ?? OWNER_STATE_WORDS[state])
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
