import { buildOf, partsOf } from '../core/build.ts'
import { claimsAsOf } from '../core/limits/asOf.ts'
import type { Limits } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import type { Part } from '../core/part.ts'
import { failed, ok, type Result } from '../problem.ts'
import { loadMachine, pastClaimsOf } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { findTag } from './findMachine.ts'
import { noMachine } from './sell.ts'

/** A machine as it stood at the end of a day, as far as it is written down. */
export type MachineOn = {
  readonly tag: string
  readonly parts: readonly Part[]
  readonly limits: Limits
}

const HALF_DAY_MS = 43_200_000

/** Parts and limits as of a day; `noon` is its noon in the shop's zone, ISO 8601 UTC. */
export async function viewMachineOn(
  { db }: Store,
  typedTag: string,
  noon: string,
): Promise<Result<MachineOn>> {
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (tag === undefined || loaded === undefined) return failed(noMachine(typedTag))
  const at = new Date(Date.parse(noon) + HALF_DAY_MS - 1).toISOString()
  const inside = loaded.history.filter(
    ({ fittedAt, removedAt }) =>
      (fittedAt === undefined || fittedAt <= at) && (removedAt === undefined || removedAt > at),
  )
  const build = buildOf(inside.map(({ part }) => part))
  const claims = claimsAsOf(loaded.machine.claims, await pastClaimsOf(db, tag), at)
  return ok({ tag, parts: partsOf(build), limits: limitsOf(build, claims) })
}
