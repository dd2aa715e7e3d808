import type { Run } from '../core/gain/run.ts'
import { ownRunsOf } from '../core/limits/fromRuns.ts'
import type { LoadedMachine } from '../store/machines.ts'

/**
 * Since when the parts of a machine that is written down now count as in it: its sale, or now where that day or its
 * noon has not come yet. Else a run made before the hand-over would count as made with other parts.
 */
export const insideSince = (soldAt: string | undefined, now: string): string | undefined =>
  soldAt !== undefined && soldAt > now ? now : soldAt

/** The machine's own runs since a part last came or went. */
export function ownRuns({ machine, history }: LoadedMachine, runs: readonly Run[]): Run[] {
  const changes = history.flatMap((stay) => [stay.fittedAt, stay.removedAt].filter((at) => at !== undefined))
  const changedAt = changes.reduce<string | undefined>(
    (last, at) => (last === undefined || at > last ? at : last),
    undefined,
  )
  return ownRunsOf(machine.tag, machine.build, changedAt, runs)
}
