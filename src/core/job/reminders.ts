import type { JobStep } from './states.ts'

/**
 * Days after which the shop looks at a job again when nothing else moves it; the shop's own habit, and it can set
 * another day. `undefined`: its date is the reminder, or nothing is open.
 */
const DAYS: { readonly [S in JobStep | 'agree']: number | undefined } = {
  agree: 7,
  book: undefined,
  missed: 3,
  start: undefined,
  'put off': 3,
  finish: undefined,
  'call off': undefined,
}

const DAY_MS = 86_400_000

/** When to look again after a step, ISO 8601 UTC; undefined: no reminder. */
export function remindAfter(step: JobStep | 'agree', at: string): string | undefined {
  const days = DAYS[step]
  return days === undefined ? undefined : new Date(Date.parse(at) + days * DAY_MS).toISOString()
}
