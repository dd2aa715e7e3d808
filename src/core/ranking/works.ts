import { type Build, type Change, changedKinds } from '../build.ts'
import type { WorkId } from '../fit/finding.ts'
import type { Judged } from '../fit/judgeChange.ts'
import { LIMIT_CATALOGUE } from '../limits/catalogue.ts'
import type { LimitKey } from '../limits/limit.ts'
import type { Machine } from '../machine.ts'
import { WORK_CATALOGUE, workNamed } from '../work/catalogue.ts'
import type { WorkRow } from '../work/row.ts'
import type { Base } from './bases.ts'

/** Works that can change what a run is told by; the others are never paired, because no run could tell. */
const MOVING: readonly WorkRow[] = WORK_CATALOGUE.filter((row) => row.moves !== 'nothing')

export const MOVING_WORKS: readonly WorkId[] = MOVING.map(({ id }) => id)

export type WorksToday = {
  /** There is something to do, as far as anybody looked. */
  readonly toDo: readonly WorkId[]
  readonly check: readonly { readonly work: WorkId; readonly limits: readonly LimitKey[] }[]
}

/** What can be done today without a part. */
export function worksToday({ after, limitsAfter }: Judged): WorksToday {
  const states = WORK_CATALOGUE.map(({ id, stateOf }) => ({ id, now: stateOf(after, limitsAfter) }))
  return {
    toDo: states.flatMap(({ id, now }) => (now.state === 'to do' ? [id] : [])),
    check: states.flatMap(({ id, now }) =>
      now.state === 'check first' ? [{ work: id, limits: now.limits }] : [],
    ),
  }
}

/**
 * Works that are sensible beside one part: those that the machine would need with it in. Where nobody knows whether
 * there is anything to do: of a part that is new to what the work is about, those that new parts start without (a new
 * kit of memory has no profile set), else those that are to do today already.
 */
export function worksBeside(
  change: Change,
  before: Build,
  { after, limitsAfter }: Judged,
  today: readonly WorkId[],
): WorkId[] {
  const changed = changedKinds(change, before)
  const isNew = (key: LimitKey) => LIMIT_CATALOGUE[key].hosts.some((kind) => changed.has(kind))
  return MOVING.filter(({ id, stateOf, undone, newPartsLackIt }) => {
    const then = stateOf(after, limitsAfter)
    if (then.state !== 'check first') return then.state === 'to do'
    if (undone === undefined || then.limits.some((key) => key !== undone.key)) return false
    return isNew(undone.key) ? newPartsLackIt : today.includes(id)
  }).map(({ id }) => id)
}

/** Two works that both move what a run is told by. */
export const pairsOf = (works: readonly WorkId[]): (readonly [WorkId, WorkId])[] => {
  const moving = works.filter((id) => MOVING.some((row) => row.id === id))
  return moving.flatMap((a, i) => moving.slice(i + 1).map((b) => [a, b] as const))
}

/** True where only a run before and one after could tell what the works are worth: no run is told by what they change. */
export const isOutsideRuns = ({ offers, chosen }: Base): boolean =>
  offers.length === 0 && chosen.every((id) => workNamed(id)?.moves === 'nothing')

/** The machine as it would be today if there were something to do for that work. */
export function ifUndone(machine: Machine, work: WorkId): Machine {
  const undone = workNamed(work)?.undone
  if (undone === undefined) return machine
  return { ...machine, claims: [...machine.claims.filter(({ key }) => key !== undone.key), undone] }
}
