import { LIMIT_CATALOGUE } from './catalogue.ts'
import type { Claim, LimitKey, LimitValues, Resolved } from './limit.ts'

type AnyValue = LimitValues[LimitKey]

/** A value that can be compared: a finite number, a name that is not empty, plugs and figures that are finite. */
function isUsable(value: AnyValue): boolean {
  if (typeof value === 'number') return Number.isFinite(value)
  if (typeof value === 'string') return value.trim() !== ''
  const isCount = 'pin8' in value ? Number.isInteger : Number.isFinite
  return Object.values(value).every((n) => isCount(n) && n >= 0)
}

const isSame = (a: AnyValue, b: AnyValue): boolean => {
  if (typeof a !== 'object' || typeof b !== 'object') return a === b
  const [figures, others] = [Object.entries(a), new Map(Object.entries(b))]
  return figures.length === others.size && figures.every(([name, n]) => others.get(name) === n)
}

/** The newest of equal standing; without dates the last given. */
const newest = <K extends LimitKey>(claims: readonly Claim<K>[]): Claim<K> | undefined =>
  claims.reduce<Claim<K> | undefined>(
    (best, claim) => (best === undefined || (claim.at ?? '') >= (best.at ?? '') ? claim : best),
    undefined,
  )

/** A lone claim that there is nothing to weigh about; most limits have one. */
const isPlain = <K extends LimitKey>(key: K, claim: Claim<K>): boolean =>
  claim.bound === undefined &&
  claim.doubt === undefined &&
  isUsable(claim.value) &&
  LIMIT_CATALOGUE[key].belief.includes(claim.source)

const NONE: readonly never[] = []

/** What nobody said anything about. */
const UNHEARD = { known: false, claims: [] } as const

/** The highest lower bound. */
const highest = <K extends LimitKey>(bounds: readonly Claim<K>[]): Claim<K> | undefined =>
  bounds.reduce<Claim<K> | undefined>(
    (best, claim) => (best === undefined || claim.value > best.value ? claim : best),
    undefined,
  )

/**
 * What is believed about one limit. A pinned claim wins; else the newest claim of the most believed source. If that
 * claim is doubtful the limit is unknown and says what to check, even when a lesser source is sure: a lesser source
 * does not settle a doubt. Every other usable claim with another value, hints included, is a conflict. Values that
 * are not finite are no claims at all.
 *
 * A claim that is only a lower bound is never the value: it says how far an unknown limit reaches at least. Where the
 * believed value is smaller, the bound is a conflict too.
 *
 * @param claims all about the limit `key`
 */
export function believe<K extends LimitKey>(key: K, claims: readonly Claim<K>[]): Resolved<K> {
  const [only, second] = claims
  if (only === undefined) return UNHEARD
  if (second === undefined && isPlain(key, only))
    return { known: true, value: only.value as LimitValues[K], by: only, conflicts: NONE }
  const usable = claims.filter((c) => isUsable(c.value))
  const values = usable.filter((c) => c.bound === undefined)
  const atLeast = highest(usable.filter((c) => c.bound !== undefined))
  const unknown = (doubt?: string): Resolved<K> => ({
    known: false,
    ...(doubt === undefined ? {} : { doubt }),
    ...(atLeast === undefined ? {} : { atLeast }),
    claims: values,
  })
  const pinned = newest(values.filter((c) => c.pinned === true))
  const source = LIMIT_CATALOGUE[key].belief.find((s) => values.some((c) => c.source === s))
  const best = pinned ?? newest(values.filter((c) => c.source === source))
  if (best === undefined) return unknown()
  if (best.doubt !== undefined && pinned === undefined) return unknown(best.doubt)
  const conflicts = usable.filter((c) =>
    c.bound === undefined ? !isSame(c.value, best.value) : c.value > best.value,
  )
  return { known: true, value: best.value as LimitValues[K], by: best, conflicts }
}
