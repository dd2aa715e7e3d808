import { type Build, type Change, changedKinds } from '../build.ts'
import type { Machine } from '../machine.ts'
import { effectOf } from '../work/catalogue.ts'
import { believe } from './believe.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from './catalogue.ts'
import { fromBrand, fullSlots } from './fromBrand.ts'
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
  const derived = [...fromParts(build, known), ...fromPlatform(build, known), ...fullSlots(build)]
  const first = [...derived, ...claims]
  const believed = <K extends LimitKey>(key: K) => believe(key, about(key, first))
  const all = [
    ...derived,
    ...boardRate(build, known, believed('controllerRateMts')),
    ...fromBrand(build, believed('brandBoard'), believed('brandCase')),
    ...claims,
  ]
  return Object.fromEntries(LIMIT_KEYS.map((key) => [key, believe(key, about(key, all))])) as Limits
}

/**
 * The claims that hold after a change: the stored ones, except those that lapse, and what the change's work leaves
 * behind. A claim lapses when a part of one of its host kinds comes or goes, because it was made about the part that
 * was there, and when a work ends the state it tells of.
 */
export function claimsAfter(machine: Machine, change: Change): Claim[] {
  const changed = changedKinds(change, machine.build)
  const { ends, leaves } = effectOf(change.work)
  const kept = machine.claims.filter(
    ({ key }) => !ends.has(key) && !LIMIT_CATALOGUE[key].hosts.some((kind) => changed.has(kind)),
  )
  return leaves.length === 0 ? kept : [...kept, ...leaves]
}
