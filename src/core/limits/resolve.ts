import { type Build, type Change, changedKinds } from '../build.ts'
import type { Machine } from '../machine.ts'
import { believe } from './believe.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from './catalogue.ts'
import { fromParts } from './fromParts.ts'
import { boardRate, fromPlatform } from './fromPlatform.ts'
import { lookUp } from './known.ts'
import type { Claim, LimitKey, Limits } from './limit.ts'

const about = <K extends LimitKey>(key: K, claims: readonly Claim[]): Claim<K>[] =>
  claims.filter((claim) => claim.key === key) as Claim<K>[]

/**
 * Every limit of a build: claims from its parts and from the published tables, put together with the stored ones
 * and weighed by the catalogue. Total: odd data makes a limit unknown, never an error.
 *
 * @param claims stored claims about this very build (see `claimsAfter` for a build after a change)
 */
export function limitsOf(build: Build, claims: readonly Claim[]): Limits {
  const known = lookUp(build)
  const derived = [...fromParts(build, known), ...fromPlatform(build, known)]
  const first = [...derived, ...claims]
  const controller = believe('controllerRateMts', about('controllerRateMts', first))
  const all = [...derived, ...boardRate(build, known, controller), ...claims]
  return Object.fromEntries(LIMIT_KEYS.map((key) => [key, believe(key, about(key, all))])) as Limits
}

/**
 * The stored claims that still hold after a change: a claim lapses when a part of one of its host kinds comes or
 * goes, because it was made about the part that was there.
 */
export function claimsAfter(machine: Machine, change: Change): Claim[] {
  const changed = changedKinds(change, machine.build)
  return machine.claims.filter((claim) => !LIMIT_CATALOGUE[claim.key].hosts.some((kind) => changed.has(kind)))
}
