import { type Build, type Change, changedKinds } from '../build.ts'
import type { Machine } from '../machine.ts'
import { effectOf } from '../work/catalogue.ts'
import { believe } from './believe.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from './catalogue.ts'
import { fromBrand, fullSlots } from './fromBrand.ts'
import { fromParts } from './fromParts.ts'
import { boardRate, fromPlatform } from './fromPlatform.ts'
import { lookUp } from './known.ts'
import type { Claim, LimitKey, Limits, Resolved } from './limit.ts'

/** Claims in the order given, by the limit they are about. */
type ByKey = { [K in LimitKey]?: Claim<K>[] }

/** Puts claims behind those that are there about the same limit. */
function sort(claims: readonly Claim[], into: ByKey): void {
  const lists: { [K in LimitKey]?: Claim[] } = into
  for (const claim of claims) {
    const list = lists[claim.key]
    if (list === undefined) lists[claim.key] = [claim]
    else list.push(claim)
  }
}

/**
 * Every limit of a build: claims from its parts and from the published tables, put together with the stored ones
 * and weighed by the catalogue. Total: odd data makes a limit unknown, never an error.
 *
 * @param claims stored claims about this very build (see `claimsAfter` for a build after a change)
 */
export function limitsOf(build: Build, claims: readonly Claim[]): Limits {
  const known = lookUp(build)
  const about: ByKey = {}
  for (const source of [fromParts(build, known), fromPlatform(build, known), fullSlots(build), claims])
    sort(source, about)
  const believed = <K extends LimitKey>(key: K): Resolved<K> => believe<K>(key, about[key] ?? [])
  sort(boardRate(build, known, believed('controllerRateMts')), about)
  sort(fromBrand(build, believed('brandBoard'), believed('brandCase')), about)
  const limits: Record<LimitKey, Resolved> = { ...UNHEARD }
  for (const key of LIMIT_KEYS) if (about[key] !== undefined) limits[key] = believed(key)
  return limits as Limits
}

/** Every limit as it is while nobody says anything; a copy of it is made faster than fifty fields one by one. */
const UNHEARD = Object.fromEntries(LIMIT_KEYS.map((key) => [key, believe(key, [])])) as Record<
  LimitKey,
  Resolved
>

/**
 * The claims that hold after a change: the stored ones, except those that lapse, and what the change's work leaves
 * behind. A claim lapses when a part of one of its host kinds comes or goes, because it was made about the part that
 * was there, and when a work ends the state it tells of.
 */
export function claimsAfter(
  machine: Machine,
  change: Change,
  changed = changedKinds(change, machine.build),
): Claim[] {
  if (machine.claims.length === 0 && change.work.length === 0) return []
  const { ends, leaves } = effectOf(change.work)
  const kept = machine.claims.filter(
    ({ key }) => !ends.has(key) && !LIMIT_CATALOGUE[key].hosts.some((kind) => changed.has(kind)),
  )
  return leaves.length === 0 ? kept : [...kept, ...leaves]
}
