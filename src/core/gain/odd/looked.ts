import { byText, cellKey } from '../cellOf.ts'
import { copyKey, type Run } from '../run.ts'

/**
 * What somebody looked at who found an odd run to be so: its own figures and its repeats. Another run of the same
 * parts, title and setting, or a correction, is other evidence.
 */
export const evidenceOf = (run: Run, runs: readonly Run[]): string => {
  const key = cellKey(run.fitted, run.titleId, run.settingId)
  const repeats = runs
    .filter((other) => other.id !== run.id && cellKey(other.fitted, other.titleId, other.settingId) === key)
    .map(({ id }) => id)
    .sort(byText)
  return JSON.stringify([copyKey(run), repeats])
}

/** Further than this in log frame rate from what was expected at the look, the rest tells something else than then. */
const MOVED_LOG = 0.1

type Look = { readonly evidence: string; readonly expectedFps: number }

/** Whether a look still silences the flag. */
export const lookHolds = (look: Look, now: Look): boolean =>
  look.evidence === now.evidence && Math.abs(Math.log(look.expectedFps / now.expectedFps)) <= MOVED_LOG
