import type { Claim } from '../../core/limits/limit.ts'
import type { Problem } from '../../problem.ts'
import type { Reading } from '../cells.ts'
import type { Draft, Entry } from '../csv/table.ts'
import { Refusal } from '../refusal.ts'
import { claimSchema } from '../stored.ts'
import { LIMIT_COLUMNS, type LimitFields, type limitTable } from './machines.ts'

/** A claim as a row gives it: `on`, `note` and `pinned` are absent when the file has no such column. */
export type LimitDraft = {
  readonly machineTag: string
  readonly claim: Claim
  readonly given: Pick<Partial<LimitFields>, 'at' | 'note' | 'pinned'>
}

/** Turns the texts under `value` into what each limit takes; adds the problems to `problems`. */
export function readLimits(
  entries: readonly Entry<Draft<LimitFields, (typeof limitTable)['columns']>>[],
  reading: Reading,
  problems: Problem[],
): Entry<LimitDraft>[] {
  return entries.flatMap(({ line, value: { machineTag, key, value: text, source, ...given } }) => {
    const { cell } = LIMIT_COLUMNS[key]
    const value = cell.read(text, reading)
    if (value instanceof Refusal) {
      const { code, next } = value
      problems.push({
        code,
        field: 'value',
        got: text,
        allowed: cell.allowed,
        next,
        file: 'limits.csv',
        line,
      })
      return []
    }
    return [{ line, value: { machineTag, claim: claimSchema.parse({ key, value, source }), given } }]
  })
}
